// One connection and what was prepared on it. For the .cc files of this folder, which include
// <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_DATABASE_CONNECTION_H_
#define ROWPROOF_STORAGE_DATABASE_CONNECTION_H_

#include <cstdint>
#include <set>
#include <string>

namespace rowproof::storage {

struct Statement;

struct Connection {
  explicit Connection(const std::string& connection_string);
  pqxx::connection session;
  // Prepares the statement if that has not been done.
  void Prepare(const Statement& statement);
  std::set<const char*> prepared;  // Statement::name, by address
  // The session's own statement_timeout; 0: none was set.
  int64_t statement_timeout_ms = 0;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_CONNECTION_H_
