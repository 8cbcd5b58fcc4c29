// Who is at the door: authentication, standing and the root row in one look-up.
#ifndef ROWPROOF_STORAGE_DATABASE_ADMISSION_H_
#define ROWPROOF_STORAGE_DATABASE_ADMISSION_H_

#include <optional>
#include <string>

#include "services/domain/access/permissions.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "services/domain/patterns/pattern.h"
#include "services/domain/testcalls/states.h"
#include "storage/report_ground.h"

namespace rowproof::storage {

// The client's request id (or one made for it), the method and the digest of the decoded input.
struct RequestIdentity {
  std::string request_id;
  std::string method;
  Sha256 digest{};
};

// What a transaction is about. Empty identifiers: not asked for.
struct Door {
  enum class Lock {
    kNone,
    kAccount,
    kPattern,
    kCall,
    // Nothing is locked: one statement does all the writing, and checks whether what the body was
    // shown still holds (Transaction, RunWhole).
    kByStatement,
  };
  // A report on this seat is to be judged: its ground is read as well.
  struct Report {
    SeatId seat;
    int version = 0;  // 0: the call's present one
  };
  // SHA-256 of the bearer token; absent: only methods for anyone.
  std::optional<Sha256> token_sha256;
  PatternId pattern;
  CallId call;
  Lock lock = Lock::kNone;
  std::optional<Report> report;
  std::optional<RequestIdentity> request;
};

struct CallRow {
  CallId id;
  testcalls::CallState state = testcalls::CallState::kDraft;
  int version_number = 0;
  int revision = 0;
};

struct Admission {
  access::Standing standing;                       // nobody, if the door asked for no token
  std::optional<patterns::PatternRecord> pattern;  // behind a report's door with its id alone
  std::optional<CallRow> call;
  // Present if the door asks for it and the seat exists.
  std::optional<ReportGround> ground;
  // Name of what the same request made before.
  std::optional<std::string> earlier_result;
  // The earlier result of a method whose results are numbers, from 1.
  int earlier_number() const;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_ADMISSION_H_
