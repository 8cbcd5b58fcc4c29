#include "services/client/tables/design.h"

#include "fmt/format.h"
#include "services/client/design/keys.h"
#include "services/client/design/tables.h"
#include "services/client/design/text.h"
#include "services/client/tables/table.h"

namespace rowproof::client {
namespace {

std::string Shown(const DesignField& field) {
  struct Visitor {
    std::string operator()(const std::string* text) const { return *text; }
    std::string operator()(const std::optional<int>* value) const {
      return std::to_string(value->value());
    }
    std::string operator()(const std::optional<double>* value) const {
      return fmt::format("{}", value->value());
    }
    std::string operator()(const std::optional<bool>* value) const {
      return value->value() ? "yes" : "no";
    }
    std::string operator()(const std::vector<std::string>* texts) const {
      std::string list;
      for (const std::string& text : *texts) list += (list.empty() ? "" : ", ") + text;
      return list;
    }
  };
  return std::visit(Visitor{}, field);
}

// What is given about one subject, and where.
class Lines {
 public:
  Lines(const DesignFile& file, const DesignOptions& typed, bool details)
      : file_(file), typed_(typed), merged_(typed), details_(details) {
    table_.Column("What").Column("Value").Column("Said by");
    FillFrom(file.options, &merged_);
  }

  template <typename Entry>
  void Add(const Entry& entry, const std::string& path, const std::string& usual) {
    const DesignField field = entry.field(merged_);
    if (IsEmpty(field)) {
      if (details_ && !usual.empty()) table_.Row({entry.what, usual, "default"});
      return;
    }
    table_.Row(
        {entry.what, Shown(field), IsEmpty(entry.field(typed_)) ? LineOf(path) : entry.option});
  }

  void AddYarns() {
    for (const auto& [colour, words] : YarnsOf(merged_.materials)) {
      std::string text;
      for (const auto& [key, value] : words) {
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ",
                            key == "class" ? "weight class" : key, value);
      }
      const bool of_file = file_.options.materials.design_yarns.contains(colour);
      const bool of_options =
          !WordsOfEachYarn(typed_.materials).empty() || !typed_.materials.yarns.empty();
      table_.Row(
          {"Yarn " + colour, text,
           of_file ? LineOf("yarn." + colour) + (of_options ? ", and options" : "") : "options"});
    }
  }

  void AddGauge() {
    if (!typed_.materials.stitches_per_10cm.has_value()) return;
    table_.Row({"Gauge",
                fmt::format("{}x{}/10 cm", *typed_.materials.stitches_per_10cm,
                            typed_.materials.rows_per_10cm.value_or(0)),
                "--stitches-per-10cm"});
  }

  std::string Text() const { return table_.empty() ? "" : table_.Text(); }

 private:
  std::string LineOf(const std::string& path) const {
    const auto found = file_.lines.find(path);
    return found == file_.lines.end() ? file_.path : fmt::format("line {}", found->second);
  }

  const DesignFile& file_;
  DesignOptions typed_;
  DesignOptions merged_;
  bool details_;
  Table table_;
};

}  // namespace

std::string TextOf(const DesignFile& file, const DesignOptions& typed, bool details) {
  Lines lines(file, typed, details);
  for (const DesignKey& key : DesignKeys()) {
    lines.Add(key, (key.table.empty() ? "" : key.table + ".") + key.name, key.usual);
  }
  for (const DesignTable& table : DesignTables()) lines.Add(table, table.name, "");
  lines.AddGauge();
  lines.AddYarns();
  const std::string head = file.path.empty()
                               ? "There is no design file: \"design new\" writes one.\n"
                               : "Design file: " + file.path + "\n";
  const std::string table = lines.Text();
  return head + (table.empty() ? "Nothing is set: every value is the default.\n" : "\n" + table) +
         (details ? "" : "\n--details shows the defaults too.\n");
}

}  // namespace rowproof::client
