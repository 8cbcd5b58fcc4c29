// Who asks, and for what: authentication, standing and the root row in one look-up.
#ifndef ROWPROOF_STORAGE_DATABASE_ADMISSION_H_
#define ROWPROOF_STORAGE_DATABASE_ADMISSION_H_

#include <optional>
#include <string>

#include "services/domain/access/permissions.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "services/domain/patterns/pattern.h"
#include "services/domain/testcalls/states.h"
#include "storage/report_basis.h"

namespace rowproof::storage {

// The client's request id (or one made for it), the method and the digest of the decoded input.
struct RequestIdentity {
  std::string request_id;
  std::string method;
  Sha256 digest{};
  bool is_made = false;  // for this run alone: no client knows the id
};

// What a write locks, so that everything below it is serial.
enum class RootLock {
  kNone,
  kAccount,
  kPattern,
  kCall,
  // Nothing is locked: one statement does all the writing, and checks whether what the body was
  // shown still holds (Transaction, RunWhole).
  kByStatement,
};

// What a transaction is about. Empty identifiers: not asked for.
struct TransactionScope {
  // A report on this seat is to be judged: its basis is read as well.
  struct Report {
    SeatId seat;
    int version = 0;  // 0: the call's present one
  };
  // SHA-256 of the bearer token; absent: only methods for anyone.
  std::optional<Sha256> token_sha256;
  PatternId pattern;
  CallId call;
  RootLock lock = RootLock::kNone;
  std::optional<Report> report;
  std::optional<RequestIdentity> request;
};

struct AdmittedCall {
  CallId id;
  testcalls::CallState state = testcalls::CallState::kDraft;
  int version_number = 0;
  int revision = 0;
};

struct Admission {
  access::Standing standing;                       // nobody, if the scope names no token
  std::optional<patterns::PatternRecord> pattern;  // for a report with its id alone
  std::optional<AdmittedCall> call;
  // Present if the scope asks for it and the seat exists.
  std::optional<ReportBasis> basis;
  // Name of what the same request made before.
  std::optional<std::string> earlier_result;
  // The earlier result of a method whose results are numbers, from 1.
  int earlier_number() const;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_ADMISSION_H_
