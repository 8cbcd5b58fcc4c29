#include "storage/database/failure.h"

#include <pqxx/pqxx>
#include <string_view>

#include "services/domain/errors.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {
namespace {

// The constraint's name from the server's message. The name that decides about a second run is
// searched for on its own, since messages are in the server's language.
std::string ConstraintIn(std::string_view message) {
  constexpr std::string_view kClaim = "request_claim_pkey";
  if (message.find(kClaim) != std::string_view::npos) return std::string(kClaim);
  constexpr std::string_view kMark = "constraint \"";
  const size_t start = message.find(kMark);
  if (start == std::string_view::npos) return {};
  const std::string_view rest = message.substr(start + kMark.size());
  return std::string(rest.substr(0, rest.find('"')));
}

Failure Lost() { return {true, true, "", "", DatabaseAway()}; }

Failure FromSqlState(const std::string& state, std::string_view message) {
  Failure failure;
  failure.sqlstate = state;
  failure.constraint = ConstraintIn(message);
  failure.status = Internal("sqlstate-" + state);
  const std::string_view kind = std::string_view(state).substr(0, 2);
  if (state == "57014") {  // query_canceled, by statement_timeout
    failure.status = TimeUp();
  } else if (kind == "08" || kind == "57" || state == "25P02" || state == "25006") {
    // Shut down, starting up, a standby after a switch, or a transaction already broken.
    failure.connection_lost = true;
    failure.again = true;
    failure.status = DatabaseAway();
  } else if (state == "40001" || state == "40P01" || state == "0A000") {
    // 0A000: a prepared statement's result changed by a migration.
    failure.again = true;
    failure.connection_lost = state == "0A000";
    failure.status = NoCapacity("the database", std::chrono::milliseconds(100));
  } else if (state == "23505" && failure.constraint == "request_claim_pkey") {
    // The same request has been carried out in the meantime: the next run finds its result.
    failure.again = true;
    failure.status =
        NoCapacity("the first attempt at this request", std::chrono::milliseconds(100));
  } else if (kind == "53") {
    failure.status = NoCapacity("the database", std::chrono::milliseconds(1000));
  }
  return failure;
}

}  // namespace

Failure FailureOf(const std::exception_ptr& exception) {
  try {
    std::rethrow_exception(exception);
  } catch (const Overtaken&) {
    return {false, true, "overtaken", "",
            NoCapacity("the database", std::chrono::milliseconds(100))};
  } catch (const pqxx::broken_connection&) {
    return Lost();
  } catch (const pqxx::in_doubt_error&) {
    return Lost();
  } catch (const pqxx::serialization_failure&) {  // carries no sqlstate in libpqxx 6.4
    return FromSqlState("40001", "");
  } catch (const pqxx::deadlock_detected&) {
    return FromSqlState("40P01", "");
  } catch (const pqxx::transaction_rollback&) {
    return FromSqlState("40001", "");
  } catch (const pqxx::sql_error& error) {
    // libpqxx reports a server that went away in the middle of a statement without a state.
    if (error.sqlstate().empty()) return Lost();
    return FromSqlState(error.sqlstate(), error.what());
  }
}

}  // namespace rowproof::storage
