// How a function passes on that something it called cannot be done.
#ifndef ROWPROOF_SERVICES_DOMAIN_STATUS_MACROS_H_
#define ROWPROOF_SERVICES_DOMAIN_STATUS_MACROS_H_

#include <utility>

// Returns the absl::Status of an expression unless it is OK.
#define RETURN_IF_ERROR(...)                                                                 \
  do {                                                                                       \
    if (auto rowproof_status = (__VA_ARGS__); !rowproof_status.ok()) return rowproof_status; \
  } while (false)

// Declares or assigns what an absl::StatusOr holds, such as in
//   ASSIGN_OR_RETURN(const auto size, SizeOf(design));
// or returns its status.
#define ASSIGN_OR_RETURN(target, ...) \
  ROWPROOF_ASSIGN_OR_RETURN(ROWPROOF_JOINED_NAME(result_, __LINE__), target, __VA_ARGS__)

#define ROWPROOF_ASSIGN_OR_RETURN(result, target, ...) \
  auto result = (__VA_ARGS__);                         \
  if (!result.ok()) return result.status();            \
  target = *std::move(result) /* NOLINT(bugprone-macro-parentheses) */

#define ROWPROOF_JOINED_NAME(name, line) ROWPROOF_JOINED_NAME_AS_EXPANDED(name, line)
#define ROWPROOF_JOINED_NAME_AS_EXPANDED(name, line) name##line

#endif  // ROWPROOF_SERVICES_DOMAIN_STATUS_MACROS_H_
