#include "services/client/design/text.h"

#include <algorithm>
#include <filesystem>

#include "fmt/format.h"
#include "services/client/design/keys.h"
#include "services/client/design/tables.h"
#include "services/client/failure.h"
#include "services/client/parsing/nearest.h"
#include "services/client/tables/table.h"
#include "services/text/utf8.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

constexpr size_t kCommentColumn = 36;

std::string Quoted(const std::string& text) {
  std::string quoted = "\"";
  for (const char c : text::OneLine(text)) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

std::string NumberText(double value) { return fmt::format("{}", value); }

// A file of the command line as the design file names it.
std::string FromFolder(const std::string& file, const std::string& folder) {
  if (file.starts_with("calibrations/") || std::filesystem::path(file).is_absolute()) return file;
  std::error_code unknown;
  const auto relative =
      std::filesystem::relative(file, folder.empty() ? std::string(".") : folder, unknown);
  return unknown || relative.empty() ? file : relative.string();
}

std::string ValueText(const DesignKey& key, const DesignField& field, const std::string& folder) {
  struct Visitor {
    std::string operator()(const std::string* text) const { return Quoted(*text); }
    std::string operator()(const std::optional<int>* value) const {
      return std::to_string(value->value());
    }
    std::string operator()(const std::optional<double>* value) const {
      return NumberText(value->value());
    }
    std::string operator()(const std::optional<bool>* value) const {
      return value->value() ? "true" : "false";
    }
    std::string operator()(const std::vector<std::string>* texts) const {
      std::string list;
      for (const std::string& text : *texts) list += (list.empty() ? "" : ", ") + Quoted(text);
      return "[" + list + "]";
    }
  };
  if (key.file) return Quoted(FromFolder(*std::get<std::string*>(field), folder));
  return std::visit(Visitor{}, field);
}

// The line of a key with what it is, side by side if there is room.
std::string Line(const std::string& line, const std::string& comment) {
  const size_t columns = std::max(kCommentColumn, text::CharacterCount(line) + 2);
  if (columns + comment.size() + 2 > kPageColumns) return "# " + comment + "\n" + line + "\n";
  return line + std::string(columns - text::CharacterCount(line), ' ') + "# " + comment + "\n";
}

std::string CommentOf(const DesignKey& key) {
  const std::string words = key.words != nullptr && key.name != "foundation_colour"
                                ? ": " + AnyOf(key.words())
                                : std::string();
  return fmt::format("{}{} (default: {})", key.what, words, key.usual);
}

std::string KeysText(const std::string& table, DesignOptions& options, const std::string& folder) {
  std::string text;
  for (const DesignKey& key : DesignKeys()) {
    if (key.table != table) continue;
    const DesignField field = key.field(options);
    text += IsEmpty(field) ? Line(fmt::format("# {} = {}", key.name, key.example), CommentOf(key))
                           : Line(fmt::format("{} = {}", key.name, ValueText(key, field, folder)),
                                  CommentOf(key));
  }
  return text;
}

std::string Commented(const std::string& lines) {
  std::string text;
  size_t from = 0;
  while (from < lines.size()) {
    const size_t end = std::min(lines.find('\n', from), lines.size());
    text += "# " + lines.substr(from, end - from) + "\n";
    from = end + 1;
  }
  return text;
}

std::string TableText(const DesignTable& table, const std::string& value) {
  const Parts parts = table.split(value);
  std::string text = table.many ? "[[" + table.name + "]]\n" : "[" + table.name + "]\n";
  for (size_t i = 0; i < table.parts.size(); ++i) {
    if (parts[i].empty()) continue;
    const bool quoted = table.parts[i].kind == PartKey::Kind::kText;
    text += fmt::format("{} = {}\n", table.parts[i].name, quoted ? Quoted(parts[i]) : parts[i]);
  }
  return text;
}

std::string TablesText(DesignOptions& options) {
  std::string text;
  for (const DesignTable& table : DesignTables()) {
    const DesignField field = table.field(options);
    text += "\n# " + table.what + "\n";
    if (IsEmpty(field)) {
      text += Commented(table.example);
    } else if (auto* const* one = std::get_if<std::string*>(&field)) {
      text += TableText(table, **one);
    } else {
      for (const std::string& value : *std::get<std::vector<std::string>*>(field)) {
        text += TableText(table, value);
      }
    }
  }
  return text;
}

std::string YarnsText(const MaterialsOptions& materials) {
  const auto yarns = YarnsOf(materials);
  std::string text = "\n# Yarns: [yarn.A] to [yarn.H], and [yarn.border] for a border of its own\n";
  for (const auto& [colour, words] : yarns) {
    text += fmt::format("[yarn.{}]\n", colour);
    for (const YarnKey& key : YarnKeys()) {
      for (const auto& [word, value] : words) {
        if (word != key.word) continue;
        const bool quoted = key.kind == PartKey::Kind::kText;
        text += fmt::format("{} = {}\n", key.name, quoted ? Quoted(value) : value);
      }
    }
  }
  if (!yarns.empty()) return text;
  text += "# [yarn.A]\n";
  for (const YarnKey& key : YarnKeys()) {
    if (key.name != "tex") text += fmt::format("# {} = {}\n", key.name, key.example);
  }
  return text;
}

// Later words take the place of earlier ones; a ball band and a linear density that of each other.
void Add(const YarnWords& later, YarnWords* words) {
  for (const auto& one : later) {
    std::erase_if(*words, [&one](const auto& word) {
      return word.first == one.first || (one.first == "ball" && word.first == "tex") ||
             (one.first == "tex" && word.first == "ball");
    });
    words->push_back(one);
  }
}

// Metres and grams of a ball as its band.
YarnWords WithBand(const YarnWords& words) {
  YarnWords with;
  std::string metres;
  std::string grams;
  for (const auto& [key, value] : words) {
    if (key == "ball-m") {
      metres = value;
    } else if (key == "ball-g") {
      grams = value;
    } else {
      with.emplace_back(key, value);
    }
  }
  if (metres.empty() != grams.empty()) {
    throw Failure(ExitCode::kUsage, "--ball-m and --ball-g go together: give both, or --ball");
  }
  if (!metres.empty()) with.emplace_back("ball", metres + " m / " + grams + " g");
  return with;
}

}  // namespace

std::map<std::string, YarnWords> YarnsOf(const MaterialsOptions& materials) {
  const YarnWords each = WithBand(WordsOfEachYarn(materials));
  std::map<std::string, YarnWords> yarns = materials.design_yarns;
  std::map<std::string, YarnWords> typed;
  for (const std::string& text : materials.yarns) typed.insert(YarnWordsOf(text));
  for (const auto& entry : typed) yarns.try_emplace(entry.first);
  if (!each.empty()) {
    yarns.try_emplace("A");
    yarns.try_emplace("B");
  }
  for (auto& entry : yarns) {
    Add(each, &entry.second);
    if (const auto found = typed.find(entry.first); found != typed.end()) {
      Add(found->second, &entry.second);
    }
  }
  return yarns;
}

std::string DesignText(const DesignOptions& options, const std::string& folder,
                       const std::vector<std::string>& heading) {
  if (!options.materials.materials_file.empty()) {
    throw Failure(
        ExitCode::kUsage,
        "--materials has no place in a design file: give its gauge, yarns and the rest as "
        "options");
  }
  DesignOptions shown = options;
  if (options.materials.stitches_per_10cm.has_value() ||
      options.materials.rows_per_10cm.has_value()) {
    shown.materials.gauges.push_back(fmt::format("{}x{}/10 cm",
                                                 options.materials.stitches_per_10cm.value_or(0),
                                                 options.materials.rows_per_10cm.value_or(0)));
  }
  std::string text;
  for (const std::string& line : heading) text += "# " + text::OneLine(line) + "\n";
  text += "\n" + KeysText("", shown, folder);
  std::string table;
  for (const DesignKey& key : DesignKeys()) {
    if (key.table == table) continue;
    table = key.table;
    text += fmt::format("\n[{}]\n", table) + KeysText(table, shown, folder);
  }
  return text + TablesText(shown) + YarnsText(shown.materials);
}

}  // namespace rowproof::client
