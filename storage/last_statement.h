// Values as SQL literals, for statements that travel as text. For the .cc files of this folder,
// which include <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_LAST_STATEMENT_H_
#define ROWPROOF_STORAGE_LAST_STATEMENT_H_

#include <concepts>
#include <optional>
#include <string>

#include "fmt/format.h"
#include "storage/transaction.h"

namespace rowproof::storage {

// A value as an SQL literal. PostgreSQL takes the type of each from the parameter it stands for.
template <typename Work>
std::string Literal(Work& work, const std::string& text) {
  return work.quote(text);
}
template <typename Work>
std::string Literal(Work&, bool value) {
  return value ? "true" : "false";
}
template <typename Work, typename Number>
requires std::integral<Number> || std::floating_point<Number> std::string Literal(Work&,
                                                                                  Number value) {
  return fmt::format("'{}'", value);  // shortest that reads back
}
// Bytes.
template <typename Work>
std::string Literal(Work& work, const pqxx::binarystring& bytes) {
  return work.quote(bytes);
}
template <typename Work, typename Value>
std::string Literal(Work& work, const std::optional<Value>& value) {
  return value.has_value() ? Literal(work, *value) : "null";
}

// Leaves a statement without an answer to be sent in one message with the claim and the commit, or
// before the next statement where another follows.
template <typename... Parameters>
void RunLast(Transaction& transaction, const Statement& statement,
             const Parameters&... parameters) {
  transaction.PrepareNow(statement);
  std::string message = std::string("execute ") + statement.name + "(";
  const char* comma = "";
  ((message += comma, message += Literal(transaction.work(), parameters), comma = ", "), ...);
  transaction.SendLast(message + "); ");
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_LAST_STATEMENT_H_
