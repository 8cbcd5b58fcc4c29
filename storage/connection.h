// One connection and what was prepared on it. For the .cc files of this folder, which include
// <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_CONNECTION_H_
#define ROWPROOF_STORAGE_CONNECTION_H_

#include <set>
#include <string>

namespace rowproof::storage {

struct Connection {
  explicit Connection(const std::string& connection_string);
  pqxx::connection session;
  std::set<const char*> prepared;      // Statement::name, by address
  std::set<const char*> prepared_now;  // with the server as well
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_CONNECTION_H_
