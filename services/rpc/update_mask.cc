#include "services/rpc/update_mask.h"

#include <google/protobuf/util/field_mask_util.h>

#include <algorithm>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "fmt/ranges.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::FieldDescriptor;
using google::protobuf::FieldMask;
using google::protobuf::Message;
using google::protobuf::util::FieldMaskUtil;

bool IsWithin(std::string_view path, std::string_view field) {
  return path.starts_with(field) && (path.size() == field.size() || path[field.size()] == '.');
}

// Every field that is set, down to those that are no message.
void AddSet(const Message& message, const std::string& prefix, FieldMask* mask) {
  std::vector<const FieldDescriptor*> fields;
  const auto& reflection = *message.GetReflection();
  reflection.ListFields(message, &fields);
  for (const FieldDescriptor* field : fields) {
    const std::string path = prefix + field->name();
    if (field->is_repeated() || field->cpp_type() != FieldDescriptor::CPPTYPE_MESSAGE) {
      mask->add_paths(path);
    } else {
      AddSet(reflection.GetMessage(message, field), path + ".", mask);
    }
  }
}

absl::Status Refuse(const std::string& met, std::span<const std::string_view> changeable) {
  return InvalidField("update_mask", met,
                      fmt::format("{}, a field within it, or * for all that can be changed",
                                  fmt::join(changeable, ", ")));
}

}  // namespace

absl::StatusOr<FieldMask> ReadUpdateMask(const FieldMask& mask, const Message& sent,
                                         std::span<const std::string_view> changeable) {
  if (mask.paths_size() > kMostMaskPaths) {
    return InvalidField("update_mask", fmt::format("{} paths", mask.paths_size()),
                        fmt::format("at most {} paths", kMostMaskPaths));
  }
  FieldMask read;
  if (mask.paths().empty()) {
    FieldMask set;
    AddSet(sent, "", &set);
    for (const std::string& path : set.paths()) {
      if (std::any_of(changeable.begin(), changeable.end(),
                      [&](std::string_view field) { return IsWithin(path, field); })) {
        read.add_paths(path);
      }
    }
    if (read.paths().empty()) {
      return InvalidFields(
          {{"update_mask", fmt::format("Nothing would change: set {}, or name what "
                                       "to change in update_mask.",
                                       fmt::join(changeable, " or "))}});
    }
    return read;
  }
  for (const std::string& path : mask.paths()) {
    if (path == "*" && mask.paths_size() == 1) {
      for (const std::string_view field : changeable) read.add_paths(std::string(field));
      return read;
    }
    const bool may_change =
        std::any_of(changeable.begin(), changeable.end(),
                    [&](std::string_view field) { return IsWithin(path, field); });
    // The library passes over empty parts of a path.
    const bool whole = !path.ends_with('.') && path.find("..") == std::string::npos;
    if (!may_change || !whole ||
        !FieldMaskUtil::GetFieldDescriptors(sent.GetDescriptor(), path, nullptr)) {
      return Refuse(path, changeable);
    }
    read.add_paths(path);
  }
  return read;
}

bool Changes(const FieldMask& mask, std::string_view field) {
  return std::any_of(mask.paths().begin(), mask.paths().end(),
                     [&](const std::string& path) { return IsWithin(path, field); });
}

void LayOver(const FieldMask& mask, const Message& sent, Message* present) {
  FieldMaskUtil::MergeOptions options;
  options.set_replace_message_fields(true);
  options.set_replace_repeated_fields(true);
  FieldMaskUtil::MergeMessageTo(sent, mask, options, present);
}

}  // namespace rowproof::rpc
