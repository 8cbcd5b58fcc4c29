// Which fields of a resource an update changes (AIP-134). Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_UPDATE_MASK_H_
#define ROWPROOF_SERVICES_RPC_UPDATE_MASK_H_

#include <google/protobuf/field_mask.pb.h>
#include <google/protobuf/message.h>

#include <span>
#include <string_view>

#include "absl/status/statusor.h"

namespace rowproof::rpc {

inline constexpr int kMostMaskPaths = 100;

// The paths of `sent` to change. Without paths in `mask`: every field of `changeable`, or part of
// one, that is set in `sent`. "*": all of `changeable`, so that what is not sent is cleared.
// Otherwise the paths themselves, each one of `changeable` or a part of one. INVALID_ARGUMENT
// "update_mask" for any other path, for more than kMostMaskPaths, and if nothing is to be changed.
absl::StatusOr<google::protobuf::FieldMask> ReadUpdateMask(
    const google::protobuf::FieldMask& mask, const google::protobuf::Message& sent,
    std::span<const std::string_view> changeable);

// Whether the field, or a part of it, is to be changed.
bool Changes(const google::protobuf::FieldMask& mask, std::string_view field);

// Copies those paths of `sent` to `present`. A list, or a path that names a whole message, replaces
// the present value.
void LayOver(const google::protobuf::FieldMask& mask, const google::protobuf::Message& sent,
             google::protobuf::Message* present);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_UPDATE_MASK_H_
