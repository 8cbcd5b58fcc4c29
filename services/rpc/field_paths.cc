#include "services/rpc/field_paths.h"

#include <google/protobuf/descriptor.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <string_view>
#include <utility>

#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::Descriptor;
using google::protobuf::FieldDescriptor;
using google::protobuf::Message;
using google::protobuf::Reflection;

// "yarns[C].name" as its first step "yarns", the key "C" and the rest "name".
struct Step {
  std::string name;
  std::string_view key;
  std::string_view rest;
};

Step FirstStep(std::string_view path) {
  Step step;
  const std::string_view first = path.substr(0, path.find('.'));
  if (first.size() < path.size()) step.rest = path.substr(first.size() + 1);
  const size_t bracket = first.find('[');
  if (bracket == std::string_view::npos || !first.ends_with(']')) {
    step.name = std::string(first);
    return step;
  }
  step.name = std::string(first.substr(0, bracket));
  step.key = first.substr(bracket + 1);
  step.key.remove_suffix(1);
  return step;
}

bool IsNumber(std::string_view text) {
  return !text.empty() && text.size() < 10 && std::all_of(text.begin(), text.end(), [](char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
  });
}

std::string Joined(const std::string& head, const std::string& rest) {
  return rest.empty() ? head : head + "." + rest;
}

std::optional<std::string> Find(const Message& message, std::string_view path);

// The enum by whose member entries of this type are named; null if there is none.
const FieldDescriptor* KeyOf(const Descriptor& entry) {
  for (int i = 0; i < entry.field_count(); ++i) {
    if (entry.field(i)->enum_type() != nullptr) return entry.field(i);
  }
  return nullptr;
}

// The entry of a list whose enum is `step.key`: "sl st" is STITCH_KIND_SL_ST. The role and the yarn
// of a ColourYarn are separate fields: what concerns the entry concerns its yarn.
std::optional<std::string> FindByKey(const Message& message, const FieldDescriptor& field,
                                     const Step& step) {
  const FieldDescriptor* key = KeyOf(*field.message_type());
  if (key == nullptr) return std::nullopt;
  const FieldDescriptor* yarn = field.message_type()->FindFieldByName("yarn");
  const Reflection& reflection = *message.GetReflection();
  std::string wanted = "_" + std::string(step.key);
  for (char& c : wanted) {
    c = c == ' ' ? '_' : static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  }
  for (int i = 0; i < reflection.FieldSize(message, &field); ++i) {
    const Message& entry = reflection.GetRepeatedMessage(message, &field, i);
    if (!entry.GetReflection()->GetEnum(entry, key)->name().ends_with(wanted)) continue;
    std::string head = field.name() + "[" + std::to_string(i) + "]";
    if (step.rest.empty()) return head;
    if (yarn != nullptr) head += "." + yarn->name();
    const auto rest =
        Find(yarn == nullptr ? entry : entry.GetReflection()->GetMessage(entry, yarn), step.rest);
    return rest.has_value() ? std::optional(Joined(head, *rest)) : std::nullopt;
  }
  return field.name();
}

// The path below the member that is set of one of the message's oneofs.
std::optional<std::string> FindInOneof(const Message& message, std::string_view path) {
  const Descriptor& descriptor = *message.GetDescriptor();
  const Reflection& reflection = *message.GetReflection();
  for (int i = 0; i < descriptor.real_oneof_decl_count(); ++i) {
    const FieldDescriptor* member =
        reflection.GetOneofFieldDescriptor(message, descriptor.oneof_decl(i));
    if (member == nullptr || member->message_type() == nullptr) continue;
    const auto found = Find(reflection.GetMessage(message, member), path);
    if (found.has_value()) return Joined(member->name(), *found);
  }
  return std::nullopt;
}

std::optional<std::string> FindBelow(const Message& message, const FieldDescriptor& field,
                                     const Step& step) {
  const bool indexed = IsNumber(step.key);
  const std::string head = indexed && field.is_repeated()
                               ? field.name() + "[" + std::string(step.key) + "]"
                               : field.name();
  if (field.message_type() == nullptr) {
    return step.rest.empty() ? std::optional(head) : std::nullopt;
  }
  if (step.rest.empty()) return head;
  const Reflection& reflection = *message.GetReflection();
  std::optional<std::string> rest;
  if (!field.is_repeated()) {
    rest = Find(reflection.GetMessage(message, &field), step.rest);
  } else if (indexed && std::stoi(std::string(step.key)) < reflection.FieldSize(message, &field)) {
    rest = Find(reflection.GetRepeatedMessage(message, &field, std::stoi(std::string(step.key))),
                step.rest);
  }
  return rest.has_value() ? std::optional(Joined(head, *rest)) : std::nullopt;
}

std::optional<std::string> Find(const Message& message, std::string_view path) {
  if (path.empty()) return std::string();
  const Step step = FirstStep(path);
  const FieldDescriptor* field = message.GetDescriptor()->FindFieldByName(step.name);
  if (field == nullptr) return FindInOneof(message, path);
  if (field->is_repeated() && field->message_type() != nullptr && !step.key.empty() &&
      !IsNumber(step.key)) {
    return FindByKey(message, *field, step);
  }
  return FindBelow(message, *field, step);
}

}  // namespace

std::string PathIn(const Message& request, const std::string& path) {
  return Find(request, path).value_or(path);
}

absl::Status InRequest(const absl::Status& status, const Message& request) {
  if (status.code() != absl::StatusCode::kInvalidArgument) return status;
  ErrorDetail detail = DetailOf(status);
  bool renamed = false;
  for (FieldViolation& violation : detail.fields) {
    std::string path = PathIn(request, violation.field);
    renamed |= path != violation.field;
    violation.field = std::move(path);
  }
  // Only InvalidField, InvalidFields and MissingField name fields of the domain.
  return renamed ? InvalidFields(std::move(detail.fields)) : status;
}

bool IsPathOf(const Descriptor& descriptor, const std::string& path) {
  const Descriptor* message = &descriptor;
  std::string_view rest = path;
  while (!rest.empty()) {
    if (message == nullptr) return false;
    const Step step = FirstStep(rest);
    const FieldDescriptor* field = message->FindFieldByName(step.name);
    if (field == nullptr) return false;
    if (!step.key.empty() && !(field->is_repeated() && IsNumber(step.key))) return false;
    // Below a list only one of its entries has fields.
    if (!step.rest.empty() && field->is_repeated() && step.key.empty()) return false;
    message = field->message_type();
    rest = step.rest;
  }
  return !path.empty();
}

}  // namespace rowproof::rpc
