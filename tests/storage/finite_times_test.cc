// No table takes a time that is no moment; the list of columns is the database's own.
#include <pqxx/pqxx>
//
#include <gtest/gtest.h>

#include "fmt/format.h"
#include "tests/storage/filled_fixture.h"

namespace rowproof::storage {
namespace {

using FiniteTimes = FilledStorage;

TEST_F(FiniteTimes, AreAllThatIsTaken) {
  pqxx::connection session(test_database_.connection());
  pqxx::nontransaction admin(session);
  const pqxx::result columns = admin.exec(
      "select table_name, column_name from information_schema.columns join "
      "information_schema.tables using (table_schema, table_name) where table_schema = 'public' "
      "and table_type = 'BASE TABLE' and data_type = 'timestamp with time zone'");
  EXPECT_GT(columns.size(), 20);
  int tried = 0;
  for (const auto& column : columns) {
    const std::string table = column[0].c_str();
    if (Execute("select exists (select from " + table + ")") != "t") continue;
    ++tried;
    const std::string update =
        fmt::format("update {} set {} = 'infinity'", table, column[1].c_str());
    EXPECT_THROW(Execute(update), pqxx::check_violation) << update;
  }
  EXPECT_GT(tried, 15);
}

}  // namespace
}  // namespace rowproof::storage
