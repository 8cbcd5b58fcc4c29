// Numbers of the API's enums as the domain's. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_ENUM_FROM_PROTO_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_ENUM_FROM_PROTO_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {

// Proto enums begin at 1 in the domain's order, 0 being unspecified: `usual`. INVALID_ARGUMENT for
// foreign numbers.
template <typename Enum, typename ProtoEnum>
absl::StatusOr<Enum> EnumFrom(const std::string& field, ProtoEnum value, Enum usual, int count,
                              const char* accepted) {
  const int number = static_cast<int>(value);
  if (number == 0) return usual;
  if (number < 0 || number > count) return InvalidField(field, std::to_string(number), accepted);
  return static_cast<Enum>(number - 1);
}

// For fields whose unspecified value is no default: call only if the value is specified.
template <typename Enum, typename ProtoEnum>
absl::StatusOr<Enum> SpecifiedEnumFrom(const std::string& field, ProtoEnum value, int count,
                                       const char* accepted) {
  if (static_cast<int>(value) == 0) return InvalidField(field, "unspecified", accepted);
  return EnumFrom(field, value, Enum{}, count, accepted);
}

// The other way.
template <typename ProtoEnum, typename Enum>
ProtoEnum EnumTo(Enum value) {
  return static_cast<ProtoEnum>(static_cast<int>(value) + 1);
}

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_ENUM_FROM_PROTO_H_
