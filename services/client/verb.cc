#include "services/client/verb.h"

#include <algorithm>
#include <charconv>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/parsing/nearest.h"
#include "services/client/tables/views.h"

namespace rowproof::client {
namespace {

using google::protobuf::FieldDescriptor;
using google::protobuf::Message;

template <typename Number>
Number NumberOf(const std::string& path, const std::string& text, const char* accepted) {
  Number value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) {
    throw MustBe(path, accepted, text);
  }
  return value;
}

const google::protobuf::EnumValueDescriptor* EnumOf(const FieldDescriptor& field,
                                                    const std::string& path,
                                                    const std::string& text) {
  const auto& type = *field.enum_type();
  for (int i = 0; i < type.value_count(); ++i) {
    if (type.value(i)->number() != 0 && WordOf(*type.value(i)) == text) return type.value(i);
  }
  throw MustBe(path, AnyOf(WordsOf(type)), text);
}

void SetScalar(Message* message, const FieldDescriptor& field, const std::string& path,
               const std::string& text) {
  const auto& reflection = *message->GetReflection();
  switch (field.cpp_type()) {
    case FieldDescriptor::CPPTYPE_STRING:
      return reflection.SetString(message, &field, text);
    case FieldDescriptor::CPPTYPE_INT32:
      return reflection.SetInt32(message, &field, NumberOf<int32_t>(path, text, "a whole number"));
    case FieldDescriptor::CPPTYPE_DOUBLE:
      return reflection.SetDouble(message, &field, NumberOf<double>(path, text, "a number"));
    case FieldDescriptor::CPPTYPE_BOOL:
      if (text != "yes" && text != "no") throw MustBe(path, "yes or no", text);
      return reflection.SetBool(message, &field, text == "yes");
    case FieldDescriptor::CPPTYPE_ENUM:
      return reflection.SetEnum(message, &field, EnumOf(field, path, text));
    default:
      throw Failure(ExitCode::kInternalError, fmt::format("{} cannot be set from text", path));
  }
}

}  // namespace

CLI::App* AddNoun(CLI::App& app, const char* name, const char* help) {
  auto* noun = app.add_subcommand(name, help);
  noun->require_subcommand(1);
  return noun;
}

void GiveRequestId(Message* request) {
  const auto* field = request->GetDescriptor()->FindFieldByName("request_id");
  if (field == nullptr || !request->GetReflection()->GetString(*request, field).empty()) return;
  request->GetReflection()->SetString(request, field, NewRequestId());
}

void RequireChange(const Message& request) {
  const auto* mask = request.GetDescriptor()->FindFieldByName("update_mask");
  if (mask == nullptr || request.GetReflection()->HasField(request, mask)) return;
  throw Failure(ExitCode::kUsage,
                "nothing to change: give at least one option that sets something");
}

void SetField(Message* message, const std::string& path, const std::string& text,
              const std::string& called) {
  const size_t dot = path.find('.');
  const auto* field = message->GetDescriptor()->FindFieldByName(path.substr(0, dot));
  if (field == nullptr || field->is_repeated()) {
    throw Failure(ExitCode::kInternalError, fmt::format("{} is no single field of {}", path,
                                                        message->GetDescriptor()->name()));
  }
  if (dot == std::string::npos) return SetScalar(message, *field, called, text);
  SetField(message->GetReflection()->MutableMessage(message, field), path.substr(dot + 1), text,
           called);
}

}  // namespace rowproof::client
