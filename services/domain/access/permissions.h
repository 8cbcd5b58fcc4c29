// Who may call which method: the roles table of the whole API. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ACCESS_PERMISSIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_ACCESS_PERMISSIONS_H_

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "absl/status/status.h"
#include "services/domain/identifiers.h"

namespace rowproof::access {

// What an account is to one pattern. Values are stored; they never change their meaning.
enum class Role : uint8_t { kDesigner = 1, kTester = 2, kEditor = 3 };

// What a caller is to the pattern and the test call that a request names.
struct Standing {
  AccountId account;              // empty: nobody is signed in
  bool creates_patterns = false;  // by its rights
  bool designs_pattern = false;
  bool edits_pattern = false;
  bool tests_pattern = false;  // holds a seat in any of its calls
  SeatId seat;                 // the caller's seat in the named call; empty: none
  bool seat_ended = false;     // it was given up or cancelled

  bool signed_in() const { return !account.empty(); }
  bool knows_pattern() const { return designs_pattern || edits_pattern || tests_pattern; }
  // That it is there, also if the caller's seat has ended.
  bool knows_call() const { return designs_pattern || edits_pattern || !seat.empty(); }
  bool tests_in_call() const { return !seat.empty() && !seat_ended; }
};

// Groups of callers, by what they are to the resource that a request names.
enum class Callers : uint8_t {
  kAnyone,           // without a token
  kInvited,          // the holder of an invitation's token, signed in or not
  kSignedIn,         // any account
  kOwner,            // whose it is; the statement that loads it finds nothing of another account's
  kPatternMakers,    // any account with the right to create patterns
  kPatternDesigner,  // the pattern's designer
  kPatternReaders,   // its designer and editors
  kPatternPeople,    // its designer, editors and testers
  kCallPeople,       // its designer, editors, and testers with a seat in this call
  kCallPeopleOrEnded,  // as kCallPeople, and whose seat has ended: what is their own stays theirs
  kCallTesters,        // testers with a seat in this call
  kSeatHolder,         // the same, also if the seat has ended
  kCallSeats,          // testers with a seat in this call, and its designer on their behalf
};

struct MethodRule {
  std::string_view method;  // "PatternService.CreateVersion"
  Callers callers;
  bool needs_call;  // the resource is in a test call
};

// One rule for every method of the API.
std::span<const MethodRule> MethodRules();

// OK, or the reason for a refusal: UNAUTHENTICATED; NOT_FOUND if the caller may not know that the
// resource exists; PERMISSION_DENIED if the caller knows it but may not do this. `resource_type`
// and `resource_name` are what the request named. A method without a rule is a bug.
absl::Status Admit(std::string_view method, const Standing& standing,
                   const std::string& resource_type, const std::string& resource_name);

}  // namespace rowproof::access

#endif  // ROWPROOF_SERVICES_DOMAIN_ACCESS_PERMISSIONS_H_
