#include "tests/rpc/handlers/message_fields.h"

#include <vector>

#include "absl/strings/str_replace.h"
#include "absl/strings/str_split.h"

namespace rowproof::rpc {

using google::protobuf::Descriptor;
using google::protobuf::FieldDescriptor;
using google::protobuf::Message;

std::pair<Message*, const FieldDescriptor*> FieldAt(Message& message, const std::string& path) {
  Message* at = &message;
  const std::vector<std::string> steps = absl::StrSplit(path, '.');
  for (size_t i = 0; i + 1 < steps.size(); ++i) {
    at = at->GetReflection()->MutableMessage(at, at->GetDescriptor()->FindFieldByName(steps[i]));
  }
  return {at, at->GetDescriptor()->FindFieldByName(steps.back())};
}

std::string TextAt(Message& message, const std::string& path) {
  const auto [at, field] = FieldAt(message, path);
  return at->GetReflection()->GetString(*at, field);
}

void SetText(Message& message, const std::string& path, const std::string& value) {
  const auto [at, field] = FieldAt(message, path);
  at->GetReflection()->SetString(at, field, value);
}

void ReplaceText(Message& message, const std::string& from, const std::string& to) {
  const auto& reflection = *message.GetReflection();
  std::vector<const FieldDescriptor*> fields;
  reflection.ListFields(message, &fields);
  for (const FieldDescriptor* field : fields) {
    const bool is_text = field->type() == FieldDescriptor::TYPE_STRING && !field->is_repeated();
    if (is_text) {
      const std::string replaced =
          absl::StrReplaceAll(reflection.GetString(message, field), {{from, to}});
      reflection.SetString(&message, field, replaced);
    } else if (field->message_type() != nullptr && !field->is_repeated()) {
      ReplaceText(*reflection.MutableMessage(&message, field), from, to);
    }
  }
}

void Take(Message& message, const std::set<std::string>& names, std::set<std::string>* values) {
  const auto& reflection = *message.GetReflection();
  std::vector<const FieldDescriptor*> fields;
  reflection.ListFields(message, &fields);
  for (const FieldDescriptor* field : fields) {
    if (names.contains(field->name())) {
      values->insert(reflection.GetString(message, field));
      reflection.ClearField(&message, field);
    } else if (field->message_type() != nullptr && !field->is_map()) {
      const int size = field->is_repeated() ? reflection.FieldSize(message, field) : -1;
      if (size < 0) Take(*reflection.MutableMessage(&message, field), names, values);
      for (int i = 0; i < size; ++i) {
        Take(*reflection.MutableRepeatedMessage(&message, field, i), names, values);
      }
    }
  }
}

std::string Shown(const Message& message) { return message.ShortDebugString(); }

bool Has(const Descriptor& message, const std::string& field) {
  return message.FindFieldByName(field) != nullptr;
}

}  // namespace rowproof::rpc
