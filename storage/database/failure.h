// The one place where libpqxx's exceptions end: what a failed run of a transaction means.
#ifndef ROWPROOF_STORAGE_DATABASE_FAILURE_H_
#define ROWPROOF_STORAGE_DATABASE_FAILURE_H_

#include <exception>
#include <string>

#include "absl/status/status.h"

namespace rowproof::storage {

struct Failure {
  // The connection must not be used again.
  bool connection_lost = false;
  // Running the transaction once more can help.
  bool again = false;
  std::string sqlstate;    // empty for a lost connection; "overtaken": see transaction.h
  std::string constraint;  // name only, never values
  absl::Status status;     // what the caller gets if it is not run again
};

// Reads the exception; rethrows what is not libpqxx's.
Failure FailureOf(const std::exception_ptr& exception);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_FAILURE_H_
