#include "services/client/design/file.h"

#include <toml++/toml.h>

#include <cmath>
#include <filesystem>
#include <set>
#include <sstream>
#include <string_view>
#include <vector>

#include "fmt/format.h"
#include "services/client/design/keys.h"
#include "services/client/design/tables.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/parsing/nearest.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

bool HasControls(std::string_view text) {
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7f) return true;
  }
  return false;
}

// A value as it may be shown in a sentence.
std::string Shown(const toml::node& node) {
  constexpr size_t kLongest = 60;
  std::ostringstream text;
  if (const auto* string = node.as_string()) {
    text << string->get();
  } else if (node.is_table()) {
    text << "a table";
  } else if (node.is_array()) {
    text << "a list";
  } else if (const auto* number = node.as_integer()) {
    text << number->get();
  } else if (const auto* real = node.as_floating_point()) {
    text << real->get();
  } else if (const auto* is = node.as_boolean()) {
    text << (is->get() ? "true" : "false");
  } else {
    text << "a date or time";
  }
  const std::string all = text.str();
  return all.size() > kLongest ? all.substr(0, kLongest) + "..." : all;
}

std::string NumberText(double value) { return fmt::format("{}", value); }

class Reader {
 public:
  Reader(const std::string& path, DesignFile* file) : path_(path), file_(*file) {}

  void Read(const toml::table& root) {
    ReadTable("", root);
    for (auto&& [key, node] : root) {
      const std::string name(key.str());
      if (IsKey("", name)) continue;
      const int line = static_cast<int>(key.source().begin.line);
      if (name == "yarn") {
        ReadYarns(Table(name, node, line));
      } else if (const DesignTable* table = TableNamed(name); table != nullptr) {
        ReadParts(*table, node, line);
      } else if (const auto tables = NamesOfTables(); tables.contains(name)) {
        ReadTable(name, Table(name, node, line));
      } else {
        throw Unknown("", name, line);
      }
    }
  }

 private:
  static const DesignTable* TableNamed(const std::string& name) {
    for (const DesignTable& table : DesignTables()) {
      if (table.name == name) return &table;
    }
    return nullptr;
  }
  static bool IsKey(const std::string& table, const std::string& name) {
    for (const DesignKey& key : DesignKeys()) {
      if (key.table == table && key.name == name) return true;
    }
    return false;
  }
  // Of those with keys of one value each.
  static std::set<std::string> NamesOfTables() {
    std::set<std::string> names;
    for (const DesignKey& key : DesignKeys()) {
      if (!key.table.empty()) names.insert(key.table);
    }
    return names;
  }

  std::string At(int line) const { return fmt::format("{}, line {}", text::OneLine(path_), line); }
  Failure Wrong(int line, const std::string& name, const std::string& expected,
                const toml::node& node) const {
    return MustBe(At(line) + ": " + name, expected, Shown(node), ExitCode::kRefused);
  }
  Failure Unknown(const std::string& table, const std::string& name, int line) const {
    std::vector<std::string> names;
    for (const DesignKey& key : DesignKeys()) {
      if (key.table == table) names.push_back(key.name);
    }
    if (table.empty()) {
      for (const std::string& other : NamesOfTables()) names.push_back(other);
      for (const DesignTable& other : DesignTables()) names.push_back(other.name);
      names.emplace_back("yarn");
    }
    return UnknownOf(table, name, line, names);
  }
  Failure UnknownOf(const std::string& table, const std::string& name, int line,
                    const std::vector<std::string>& names) const {
    std::string near = DidYouMean(name, names);
    if (near.empty()) near = fmt::format(" (there are {})", AnyOf(names));
    return {ExitCode::kRefused,
            fmt::format("{}: there is no key \"{}\"{}{}", At(line), text::OneLine(name),
                        table.empty() ? "" : " in [" + table + "]", near)};
  }

  const toml::table& Table(const std::string& name, const toml::node& node, int line) const {
    const auto* table = node.as_table();
    if (table == nullptr) throw Wrong(line, name, "a table: [" + name + "]", node);
    return *table;
  }

  std::string Text(int line, const std::string& name, const toml::node& node) const {
    const auto* text = node.as_string();
    if (text == nullptr) throw Wrong(line, name, "a text in quotes", node);
    if (HasControls(text->get()) || text->get().empty()) {
      throw Wrong(line, name, "a text on one line, not empty", node);
    }
    return text->get();
  }
  double Number(int line, const std::string& name, const toml::node& node, double low, double high,
                bool whole) const {
    const std::string expected =
        fmt::format("{} from {} to {}", whole ? "a whole number" : "a number", NumberText(low),
                    NumberText(high));
    double value = 0;
    if (const auto* integer = node.as_integer()) {
      value = static_cast<double>(integer->get());
    } else if (const auto* real = node.as_floating_point(); real != nullptr && !whole) {
      value = real->get();
    } else {
      throw Wrong(line, name, expected, node);
    }
    if (!(value >= low && value <= high)) throw Wrong(line, name, expected, node);
    return value;
  }
  bool Switch(int line, const std::string& name, const toml::node& node) const {
    const auto* value = node.as_boolean();
    if (value == nullptr) throw Wrong(line, name, "true or false", node);
    return value->get();
  }

  // A text of the form that its key asks for.
  std::string FormedText(const DesignKey& key, int line, const toml::node& node) const {
    const std::string text = Text(line, key.name, node);
    if (key.words != nullptr) {
      const Words& words = key.words();
      if (std::find(words.begin(), words.end(), text) == words.end()) {
        throw Wrong(line, key.name, AnyOf(words), node);
      }
    }
    if (key.check != nullptr) Checked(line, key.name, text, key.check);
    if (key.file && !text.starts_with("calibrations/")) return FromFolder(text);
    return text;
  }
  std::string FromFolder(const std::string& name) const {
    const std::filesystem::path file(name);
    if (file.is_absolute()) return name;
    return (std::filesystem::path(path_).parent_path() / file).string();
  }
  void Checked(int line, const std::string& name, const std::string& text,
               void (*check)(const std::string&, const std::string&)) const {
    try {
      check(name, text);
    } catch (const Failure& failure) {
      throw Failure(ExitCode::kRefused, At(line) + ": " + failure.line());
    }
  }

  void ReadTable(const std::string& table, const toml::table& values) {
    for (auto&& [name, node] : values) {
      const std::string called(name.str());
      const int line = static_cast<int>(name.source().begin.line);
      const DesignKey* found = nullptr;
      for (const DesignKey& key : DesignKeys()) {
        if (key.table == table && key.name == called) found = &key;
      }
      if (found == nullptr) {
        if (table.empty()) continue;  // a separate table, or refused there
        throw Unknown(table, called, line);
      }
      Set(*found, line, node);
      file_.lines[(table.empty() ? "" : table + ".") + called] = line;
    }
  }

  void Set(const DesignKey& key, int line, const toml::node& node) {
    const DesignField field = key.field(file_.options);
    if (auto* const* text = std::get_if<std::string*>(&field)) {
      **text = FormedText(key, line, node);
    } else if (auto* const* whole = std::get_if<std::optional<int>*>(&field)) {
      **whole = static_cast<int>(Number(line, key.name, node, key.low, key.high, true));
    } else if (auto* const* number = std::get_if<std::optional<double>*>(&field)) {
      **number = Number(line, key.name, node, key.low, key.high, false);
    } else if (auto* const* is = std::get_if<std::optional<bool>*>(&field)) {
      **is = Switch(line, key.name, node);
    } else {
      ReadTexts(key, line, node, std::get<std::vector<std::string>*>(field));
    }
  }
  void ReadTexts(const DesignKey& key, int line, const toml::node& node,
                 std::vector<std::string>* texts) {
    const auto* list = node.as_array();
    if (list == nullptr || list->empty() || list->size() > 256) {
      throw Wrong(line, key.name, "a list of texts: [\"...\", \"...\"]", node);
    }
    for (const toml::node& one : *list) texts->push_back(FormedText(key, line, one));
  }

  // [name], or each [[name]] of a list.
  void ReadParts(const DesignTable& table, const toml::node& node, int line) {
    const DesignField field = table.field(file_.options);
    const auto add = [&](const toml::table& values, int at) {
      const std::string text = PartsText(table, values, at);
      if (auto* const* texts = std::get_if<std::vector<std::string>*>(&field)) {
        (*texts)->push_back(text);
      } else {
        *std::get<std::string*>(field) = text;
      }
    };
    file_.lines[table.name] = line;
    if (node.is_table()) return add(*node.as_table(), line);
    const auto* list = node.as_array();
    if (!table.many || list == nullptr || list->empty() || list->size() > kMostTables) {
      throw Wrong(line, table.name,
                  table.many ? "tables: [[" + table.name + "]], 100 at most"
                             : "a table: [" + table.name + "]",
                  node);
    }
    for (const toml::node& one : *list) {
      const int at = static_cast<int>(one.source().begin.line);
      add(Table(table.name, one, at > 0 ? at : line), at > 0 ? at : line);
    }
  }

  std::string PartsText(const DesignTable& table, const toml::table& values, int line) const {
    Parts parts(table.parts.size());
    std::vector<std::string> names;
    for (const PartKey& part : table.parts) names.push_back(part.name);
    for (auto&& [name, node] : values) {
      const std::string called(name.str());
      const int at = static_cast<int>(name.source().begin.line);
      const size_t index =
          static_cast<size_t>(std::find(names.begin(), names.end(), called) - names.begin());
      if (index == names.size()) throw UnknownOf(table.name, called, at, names);
      parts[index] = PartText(table.parts[index], at, node);
    }
    for (size_t i = 0; i < parts.size(); ++i) {
      if (table.parts[i].needed && parts[i].empty()) {
        throw Failure(ExitCode::kRefused,
                      fmt::format("{}: [{}] needs the key \"{}\"", At(line), table.name, names[i]));
      }
    }
    const std::string text = table.join(parts);
    Checked(line, table.name, text, table.check);
    return text;
  }
  std::string PartText(const PartKey& part, int line, const toml::node& node) const {
    switch (part.kind) {
      case PartKey::Kind::kText:
        return Text(line, part.name, node);
      case PartKey::Kind::kSwitch:
        return Switch(line, part.name, node) ? "true" : "false";
      default:
        return NumberText(
            Number(line, part.name, node, part.low, part.high, part.kind == PartKey::Kind::kWhole));
    }
  }

  void ReadYarns(const toml::table& yarns) {
    for (auto&& [letter, node] : yarns) {
      const std::string colour(letter.str());
      const int line = static_cast<int>(letter.source().begin.line);
      const Words& letters = ColourLetters();
      if (colour != "border" &&
          std::find(letters.begin(), letters.end(), colour) == letters.end()) {
        throw Failure(ExitCode::kRefused,
                      fmt::format("{}: there is no yarn \"{}\" ([yarn.A] to [yarn.H], or "
                                  "[yarn.border])",
                                  At(line), text::OneLine(colour)));
      }
      file_.lines["yarn." + colour] = line;
      YarnWords& words = file_.options.materials.design_yarns[colour];
      for (auto&& [name, value] : Table("yarn." + colour, node, line)) {
        ReadYarnWord(colour, std::string(name.str()), static_cast<int>(name.source().begin.line),
                     value, &words);
      }
    }
  }
  void ReadYarnWord(const std::string& colour, const std::string& name, int line,
                    const toml::node& node, YarnWords* words) {
    std::vector<std::string> names;
    for (const YarnKey& key : YarnKeys()) {
      names.push_back(key.name);
      if (key.name != name) continue;
      const std::string text = PartText({name, key.kind, false, key.low, key.high}, line, node);
      v1::Yarn yarn;
      try {
        SetYarnProperty("yarn " + colour + " " + name, key.word, text, &yarn);
      } catch (const Failure& failure) {
        throw Failure(ExitCode::kRefused, At(line) + ": " + failure.line());
      }
      words->emplace_back(key.word, text);
      file_.lines[fmt::format("yarn.{}.{}", colour, name)] = line;
      return;
    }
    throw UnknownOf("yarn." + colour, name, line, names);
  }

  const std::string& path_;
  DesignFile& file_;
};

}  // namespace

DesignFile ParseDesign(const std::string& path, const std::string& text) {
  DesignFile file;
  file.path = path;
  try {
    Reader(path, &file).Read(toml::parse(std::string_view(text), std::string_view(path)));
  } catch (const toml::parse_error& error) {
    throw Failure(ExitCode::kRefused, fmt::format("{}, line {}: not TOML: {}", text::OneLine(path),
                                                  error.source().begin.line,
                                                  text::OneLine(std::string(error.description()))));
  }
  return file;
}

DesignFile ReadDesignFile(const std::string& path) {
  return ParseDesign(path, ReadTextFile(path, kLargestDesignBytes));
}

std::string DesignPathBeside(const std::string& chart_path) {
  if (chart_path.empty() || chart_path == "-") return {};
  return std::filesystem::path(chart_path).replace_extension(".toml").string();
}

DesignFile FindDesignFile(const std::string& path, const std::string& chart_path) {
  if (!path.empty()) return ReadDesignFile(path);
  const std::string beside = DesignPathBeside(chart_path);
  std::error_code unknown;
  if (beside.empty() || beside == chart_path || !std::filesystem::exists(beside, unknown))
    return {};
  return ReadDesignFile(beside);
}

}  // namespace rowproof::client
