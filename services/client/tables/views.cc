#include "services/client/tables/views.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <ctime>

#include "fmt/format.h"
#include "services/client/tables/table.h"
#include "services/quantities/measured.h"
#include "services/text/utf8.h"

namespace rowproof::client {
namespace {

using google::protobuf::FieldDescriptor;
using google::protobuf::Message;

constexpr size_t kDeepest = 6;
constexpr size_t kLongestNameInLine = 40;

std::string Lower(std::string text) {
  for (char& c : text) c = c == '_' ? '-' : static_cast<char>(std::tolower(c));
  return text;
}

// A number in the unit that its field's name ends in.
std::string NumberText(const std::string& field, double value, Units units) {
  if (field.ends_with("per_decimetre")) return fmt::format("{:.4g}", value);
  if (field == "minutes") return quantities::StatedTime(value);
  if (field.ends_with("_minutes")) return quantities::WorkingTime(value);
  if (field.ends_with("_mm")) {
    return std::abs(value) < 30 ? quantities::SmallLength(value, units)
                                : quantities::Extent(value, units);
  }
  if (field.ends_with("_m")) return quantities::YarnLength(value * 1000, units);
  if (field.ends_with("_g")) return quantities::Mass(value, units);
  return fmt::format("{:.4g}", value);
}

// Of a field that is no message; `index` below 0: not repeated.
std::string ScalarText(const Message& message, const FieldDescriptor& field, int index,
                       Units units) {
  const auto& reflection = *message.GetReflection();
  const bool one = index < 0;
  switch (field.cpp_type()) {
    case FieldDescriptor::CPPTYPE_INT32:
      return std::to_string(one ? reflection.GetInt32(message, &field)
                                : reflection.GetRepeatedInt32(message, &field, index));
    case FieldDescriptor::CPPTYPE_INT64:
      return std::to_string(one ? reflection.GetInt64(message, &field)
                                : reflection.GetRepeatedInt64(message, &field, index));
    case FieldDescriptor::CPPTYPE_DOUBLE:
      return NumberText(field.name(),
                        one ? reflection.GetDouble(message, &field)
                            : reflection.GetRepeatedDouble(message, &field, index),
                        units);
    case FieldDescriptor::CPPTYPE_BOOL:
      return (one ? reflection.GetBool(message, &field)
                  : reflection.GetRepeatedBool(message, &field, index))
                 ? "yes"
                 : "no";
    case FieldDescriptor::CPPTYPE_ENUM:
      return WordOf(one ? *reflection.GetEnum(message, &field)
                        : *reflection.GetRepeatedEnum(message, &field, index));
    case FieldDescriptor::CPPTYPE_STRING: {
      std::string text = one ? reflection.GetString(message, &field)
                             : reflection.GetRepeatedString(message, &field, index);
      if (field.type() == FieldDescriptor::TYPE_BYTES) return fmt::format("{} bytes", text.size());
      return text;
    }
    default:
      return "?";
  }
}

std::string ListText(const Message& message, const FieldDescriptor& field, Units units) {
  const int count = message.GetReflection()->FieldSize(message, &field);
  if (field.cpp_type() == FieldDescriptor::CPPTYPE_MESSAGE) return std::to_string(count);
  std::string text;
  for (int i = 0; i < count; ++i)
    text += (i > 0 ? ", " : "") + ScalarText(message, field, i, units);
  return text.empty() ? "-" : text;
}

const google::protobuf::Timestamp* AsTime(const Message& message) {
  return dynamic_cast<const google::protobuf::Timestamp*>(&message);
}

std::string LabelOf(const FieldDescriptor& field) {
  std::string label = Lower(field.name());
  std::replace(label.begin(), label.end(), '-', ' ');
  for (const char* unit : {" mm", " m", " g"}) {
    if (field.cpp_type() == FieldDescriptor::CPPTYPE_DOUBLE && label.ends_with(unit) &&
        !label.ends_with("per 100mm")) {
      label.erase(label.size() - std::string(unit).size());
      break;
    }
  }
  return label;
}

void Record(const Message& message, size_t depth, Units units, std::string& out);

void RecordField(const Message& message, const FieldDescriptor& field, size_t depth, Units units,
                 std::string& out) {
  const auto& reflection = *message.GetReflection();
  const std::string indent(depth * 2, ' ');
  if (field.cpp_type() != FieldDescriptor::CPPTYPE_MESSAGE) {
    const std::string value = field.is_repeated() ? ListText(message, field, units)
                                                  : ScalarText(message, field, -1, units);
    out += Paragraph(indent + LabelOf(field) + ": ", value);
    return;
  }
  const int count = field.is_repeated() ? reflection.FieldSize(message, &field) : 1;
  for (int i = 0; i < count; ++i) {
    const Message& inner = field.is_repeated() ? reflection.GetRepeatedMessage(message, &field, i)
                                               : reflection.GetMessage(message, &field);
    if (const auto* time = AsTime(inner)) {
      out += indent + LabelOf(field) + ": " + TimeText(*time) + "\n";
      continue;
    }
    out += indent + LabelOf(field) + (field.is_repeated() ? fmt::format(" {}", i + 1) : "") + "\n";
    Record(inner, depth + 1, units, out);
  }
}

void Record(const Message& message, size_t depth, Units units, std::string& out) {
  if (depth > kDeepest) return;
  std::vector<const FieldDescriptor*> fields;
  message.GetReflection()->ListFields(message, &fields);
  for (const auto* field : fields) RecordField(message, *field, depth, units, out);
}

}  // namespace

std::string WordOf(const google::protobuf::EnumValueDescriptor& value) {
  // Values begin with their type's name: CALL_STATE_ of CallState.
  std::string prefix;
  for (const char c : value.type()->name()) {
    if (std::isupper(static_cast<unsigned char>(c)) != 0 && !prefix.empty()) prefix += '_';
    prefix += static_cast<char>(std::toupper(c));
  }
  prefix += '_';
  const std::string& name = value.name();
  const std::string word = name.starts_with(prefix) ? name.substr(prefix.size()) : name;
  // A colour's letter stays one.
  return word.size() == 1 ? word : Lower(word);
}

std::vector<std::string> WordsOf(const google::protobuf::EnumDescriptor& type) {
  std::vector<std::string> words;
  for (int i = 0; i < type.value_count(); ++i) {
    if (type.value(i)->number() != 0) words.push_back(WordOf(*type.value(i)));
  }
  return words;
}

std::string TimeText(const google::protobuf::Timestamp& time) {
  if (time.seconds() == 0 && time.nanos() == 0) return "-";
  const std::time_t seconds = time.seconds();
  std::tm parts{};
  if (gmtime_r(&seconds, &parts) == nullptr) return "-";
  char text[40];
  std::strftime(text, sizeof text, "%Y-%m-%d %H:%M UTC", &parts);
  return text;
}

std::string ValueOf(const Message& message, std::string_view path, Units units) {
  const size_t dot = path.find('.');
  const auto* field = message.GetDescriptor()->FindFieldByName(std::string(path.substr(0, dot)));
  if (field == nullptr) return "?";
  const auto& reflection = *message.GetReflection();
  if (field->is_repeated()) return ListText(message, *field, units);
  if (field->has_presence() && !reflection.HasField(message, field)) return "-";
  if (field->cpp_type() == FieldDescriptor::CPPTYPE_MESSAGE) {
    const Message& inner = reflection.GetMessage(message, field);
    if (const auto* time = AsTime(inner)) return TimeText(*time);
    return dot == std::string_view::npos ? "..." : ValueOf(inner, path.substr(dot + 1), units);
  }
  const std::string value = ScalarText(message, *field, -1, units);
  return value.empty() ? "-" : value;
}

std::string RecordOf(const Message& message, const Style& style) {
  std::string out;
  Record(message, 0, style.units, out);
  return out.empty() ? "Done.\n" : out;
}

std::string TableOf(const std::vector<const Message*>& messages, const std::vector<View>& views) {
  if (messages.empty()) return "None.\n";
  size_t longest = 0;
  for (const auto* message : messages) {
    longest = std::max(longest, text::CharacterCount(ValueOf(*message, views.front().path)));
  }
  const bool captioned = views.front().path == "name" && longest > kLongestNameInLine;
  Table table;
  for (size_t i = captioned ? 1 : 0; i < views.size(); ++i) table.Column(views[i].head);
  for (const auto* message : messages) {
    std::vector<std::string> cells;
    cells.reserve(views.size());
    for (const auto& view : views) cells.push_back(ValueOf(*message, view.path));
    std::string caption;
    if (captioned) {
      caption = cells.front();
      cells.erase(cells.begin());
    }
    table.Row(std::move(cells), caption);
  }
  return table.Text();
}

}  // namespace rowproof::client
