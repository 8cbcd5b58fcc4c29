// Accounts, their tokens, and what they are to patterns.
#ifndef ROWPROOF_SERVICES_DOMAIN_ACCESS_ACCOUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_ACCESS_ACCOUNTS_H_

#include <optional>
#include <string>

#include "services/domain/access/permissions.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"

namespace rowproof::access {

struct AccountRecord {
  AccountId id;
  bool may_create_patterns = false;
  std::string display_name;
  std::string mail_address;
  Moment created_at;
};

struct TokenRecord {
  TokenId id;
  std::string label;
  Moment created_at;
  Moment expires_at;
  std::optional<Moment> revoked_at;
};

// An account's role in one pattern, and its seat if it is a tester.
struct MembershipRecord {
  PatternId pattern;
  Role role = Role::kDesigner;
  CallId call;  // of a tester, with the seat; else empty
  SeatId seat;
  int report_count = 0;
};

struct EditorRecord {
  PatternId pattern;
  EditorId id;
  AccountId account;         // empty: the invitation is out
  std::string display_name;  // personal data; empty: not accepted, or erased
  std::string label;
  Moment created_at;
  Moment expires_at;  // of the invitation
  std::optional<Moment> accepted_at;
};

}  // namespace rowproof::access

#endif  // ROWPROOF_SERVICES_DOMAIN_ACCESS_ACCOUNTS_H_
