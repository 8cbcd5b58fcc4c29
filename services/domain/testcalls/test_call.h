// Test calls and their seats, as they are kept.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_TEST_CALL_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_TEST_CALL_H_

#include <optional>
#include <string>

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "services/domain/testcalls/call_settings.h"
#include "services/domain/testcalls/states.h"

namespace rowproof::testcalls {

struct TestCallRecord {
  PatternId pattern;
  CallId id;
  CallState state = CallState::kDraft;
  int version_number = 0;
  int revision = 1;
  Moment created_at;
  CallSettings settings;
};

struct SentVersion {
  int number = 0;
  Moment sent_at;
};

// A seat with the place of its newest report.
struct SeatRecord {
  PatternId pattern;
  CallId call;
  SeatId id;
  SeatState state = SeatState::kOffered;
  std::string size;
  AccountId account;         // empty: not taken
  std::string display_name;  // personal data; empty: not taken, or erased
  Moment created_at;
  std::optional<Moment> taken_at;
  std::optional<Moment> ended_at;
  int report_count = 0;
  // Of the newest report; 0 without one.
  int last_row = 0;
  int report_version = 0;
};

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_TEST_CALL_H_
