// One transaction on one connection, as the .cc files of this folder see it. They include
// <pqxx/pqxx> first and run statements by Run(). Not thread-safe; lives for one run of a Database's
// body.
#ifndef ROWPROOF_STORAGE_DATABASE_TRANSACTION_H_
#define ROWPROOF_STORAGE_DATABASE_TRANSACTION_H_

#include <exception>
#include <optional>
#include <string>
#include <utility>

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"

namespace pqxx {
class nontransaction;
}  // namespace pqxx

namespace rowproof::storage {

struct Connection;

// A statement prepared once a connection at its first use. `name` is unique in the project and is
// logged if the statement fails.
struct Statement {
  const char* name;
  const char* sql;
};

// What a write claims: see TransactionScope::request.
struct Claim {
  std::string account;
  std::string request_id;
  std::string method;
  Sha256 digest{};
  PatternId pattern;  // that it changes; empty: none
};

class Transaction {
 public:
  Transaction(Connection& connection, pqxx::nontransaction& work, Moment now,
              std::optional<Claim> claim)
      : connection_(connection), work_(work), now_(now), claim_(std::move(claim)) {}

  // Name of what this write makes; stored with the request id.
  void SetResult(std::string name) { result_ = std::move(name); }
  const std::string& result() const { return result_; }
  // What the write claims: made with the commit, or by RunWhole's statement. Absent for a read.
  const std::optional<Claim>& claim() const { return claim_; }
  // The pattern that the write turned out to be about, if the request did not name it.
  void SetPattern(const PatternId& pattern) {
    if (claim_.has_value()) claim_->pattern = pattern;
  }
  // Commits although the request was carried out before: for an answer that holds a secret, which
  // only a new secret can repeat.
  void CommitWhenRepeated() { commits_when_repeated_ = true; }
  bool commits_when_repeated() const { return commits_when_repeated_; }
  // The time of this run, from the injected clock.
  Moment now() const { return now_; }

  // Whether RunWhole has written.
  bool is_written() const { return is_written_; }
  void SetWritten() { is_written_ = true; }

  pqxx::nontransaction& work() { return work_; }
  // Prepares the statement on this connection if that has not been done.
  void Prepare(const Statement& statement);

 private:
  Connection& connection_;
  pqxx::nontransaction& work_;
  Moment now_;
  std::string result_;
  std::optional<Claim> claim_;
  bool commits_when_repeated_ = false;
  bool is_written_ = false;
};

// Runs a prepared statement with its parameters; throws pqxx's exceptions, which end in Database.
template <typename AnyTransaction, typename... Parameters>
auto Run(AnyTransaction& transaction, const Statement& statement, Parameters&&... parameters) {
  transaction.Prepare(statement);
  return transaction.work().exec_prepared(statement.name, std::forward<Parameters>(parameters)...);
}

// What the body was shown no longer holds: another write came first. The body is run again.
class Overtaken : public std::exception {};

// Runs the one statement of a write whose lock is RootLock::kByStatement. It makes the claim too,
// and changes no record if what the body was shown no longer holds.
template <typename... Parameters>
void RunWhole(Transaction& transaction, const Statement& statement, Parameters&&... parameters) {
  const auto result = Run(transaction, statement, std::forward<Parameters>(parameters)...);
  if (result.affected_rows() == 0) throw Overtaken();
  transaction.SetWritten();
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_TRANSACTION_H_
