// A value in the database that this build does not know is refused as DATA_LOSS with its table,
// column and resource, whichever column it is in; what is right beside it is read as before.
#include <pqxx/pqxx>
//
#include <functional>
#include <map>

#include "services/domain/errors.h"
#include "storage/accounts.h"
#include "storage/errata.h"
#include "storage/patterns.h"
#include "storage/seats.h"
#include "storage/stored_text.h"
#include "tests/storage/filled_fixture.h"

namespace rowproof::storage {
namespace {

// `column` set to `value`, an SQL expression, and read by one of the readers below.
struct Case {
  const char* table;
  const char* column;
  const char* value;
  const char* reader;
};

class UnreadableValues : public FilledStorage {
 protected:
  // Whatever the schema refuses, a later build or an operator's hand could have written.
  UnreadableValues() {
    Execute(R"(
do $$
declare one record;
begin
  for one in select conrelid::regclass as relation, conname from pg_constraint
             where contype = 'c' and connamespace = 'public'::regnamespace loop
    execute format('alter table %s drop constraint %I', one.relation, one.conname);
  end loop;
  for one in select attrelid::regclass as relation, attname from pg_attribute
             join pg_class on pg_class.oid = attrelid
             where relkind = 'r' and relnamespace = 'public'::regnamespace and attnum > 0
               and attnotnull and not exists (select from pg_index where indrelid = attrelid
                 and indisprimary and attnum = any(indkey)) loop
    execute format('alter table %s alter column %I drop not null', one.relation, one.attname);
  end loop;
end $$)");
  }

  absl::Status ReadBy(const std::string& reader) {
    if (reader == "admission" || reader == "report admission") {
      TransactionScope scope = SeatScope();
      if (reader == "admission") scope.report.reset();
      if (reader == "admission") scope.lock = RootLock::kNone;
      return database_.Read("TransactionScope", Later(), scope,
                            [](Transaction&, const Admission&) { return absl::OkStatus(); });
    }
    const auto found = readers_.find(reader);
    EXPECT_NE(found, readers_.end()) << reader;
    return database_.Read("Read", Later(), {}, [&](Transaction& transaction, const Admission&) {
      found->second(transaction);
      return absl::OkStatus();
    });
  }

  void ExpectRefused(const Case& bad) {
    SCOPED_TRACE(std::string(bad.table) + "." + bad.column + " = " + bad.value);
    const std::string table = bad.table;
    const std::string quiet = "set session_replication_role = replica; ";
    ASSERT_TRUE(ReadBy(bad.reader).ok());
    admin_.exec("create table kept as table " + table);
    admin_.exec(quiet + "update " + table + " set " + bad.column + " = " + bad.value);
    const size_t before = observer_.unreadable().size();
    const absl::Status status = ReadBy(bad.reader);
    EXPECT_EQ(status.code(), absl::StatusCode::kDataLoss) << status;
    const ErrorDetail detail = DetailOf(status);
    EXPECT_EQ(detail.reason, "STORED_VALUE_UNREADABLE");
    const std::map<std::string, std::string> where = {{"table", bad.table}, {"column", bad.column}};
    EXPECT_EQ(detail.metadata, where);
    EXPECT_NE(detail.resource_name, "");
    const auto logged = observer_.unreadable();
    if (logged.size() == before + 1) {
      EXPECT_EQ(logged.back().table, bad.table);
      EXPECT_EQ(logged.back().column, bad.column);
      EXPECT_EQ(logged.back().resource, detail.resource_name);
    } else {
      ADD_FAILURE() << logged.size() - before << " entries in the log";
    }
    admin_.exec(quiet + "delete from " + table + "; insert into " + table +
                " table kept; drop table kept");
    EXPECT_TRUE(ReadBy(bad.reader).ok());
  }
  template <size_t kCount>
  void ExpectAllRefused(const Case (&cases)[kCount]) {
    for (const Case& bad : cases) ExpectRefused(bad);
  }

  pqxx::connection session_{test_database_.connection()};
  pqxx::nontransaction admin_{session_};

 private:
  const std::map<std::string, std::function<void(Transaction&)>> readers_ = {
      {"account", [](auto& t) { LoadAccount(t, {"ada"}); }},
      {"tokens", [](auto& t) { ListTokens(t, {"ada"}, std::nullopt, {}, 9); }},
      {"memberships", [](auto& t) { ListMemberships(t, {"tea"}); }},
      {"editors", [](auto& t) { ListEditors(t, kPattern, std::nullopt, {}, 9); }},
      {"pattern", [](auto& t) { LoadPattern(t, kPattern); }},
      {"patterns", [](auto& t) { ListPatterns(t, {"ada"}, true, std::nullopt, {}, 9); }},
      {"version", [](auto& t) { DecodedContent(LoadVersion(t, kPattern, 1).value()); }},
      {"versions", [](auto& t) { ListVersions(t, kPattern, 0, 9); }},
      {"content", [](auto& t) { LoadVersionContent(t, kPattern, 1); }},
      {"call", [](auto& t) { LoadTestCall(t, kPattern, kCall); }},
      {"calls", [](auto& t) { ListTestCalls(t, kPattern, {}, std::nullopt, {}, 9); }},
      {"sent", [](auto& t) { ListSentVersions(t, kPattern, kCall); }},
      {"seat", [](auto& t) { LoadSeat(t, kPattern, kCall, kSeat); }},
      {"seats", [](auto& t) { ListSeats(t, kPattern, kCall, std::nullopt, {}, 9); }},
      {"seat states", [](auto& t) { LoadSeatStates(t, kPattern, kCall); }},
      {"report", [](auto& t) { LoadReport(t, kPattern, kCall, kSeat, 1); }},
      {"reports", [](auto& t) { ListNewestReports(t, kPattern, kCall, {}, 9); }},
      {"erratum", [](auto& t) { LoadErratum(t, kPattern, kCall, {"e1"}); }},
      {"errata",
       [](auto& t) {
         ListErrata(t, kPattern, kCall, {{}, true}, -1, {}, 9);
       }},
      {"set aside", [](auto& t) { ListSetAsides(t, kPattern, kCall, {}, 0, 9); }},
      {"steps", [](auto& t) { LoadWorkSteps(t, kPattern, kCall); }},
      {"reconciliation", [](auto& t) { LoadReconciliation(t, kPattern, kCall, 1); }},
      {"reconciliations", [](auto& t) { ListReconciliations(t, kPattern, kCall, 0, 9); }},
      {"release", [](auto& t) { LoadRelease(t, kPattern, {"r1"}); }},
      {"file",
       [](auto& t) {
         LoadReleaseFile(t, kPattern, {"r1"}, releases::ReleaseFileKind::kErrataSheetText);
       }},
      {"calibration", [](auto& t) { LoadCalibration(t, {"ada"}, {"c1"}); }},
      {"revision", [](auto& t) { LoadRevision(t, {"c1"}, 1); }},
      {"revisions", [](auto& t) { ListRevisions(t, {"c1"}, 0, 9); }},
      {"measurements", [](auto& t) { LoadMeasurements(t, {"c1"}, 1); }},
  };
};

TEST_F(UnreadableValues, OfPeopleAndPatternsAreDataLoss) {
  constexpr Case kCases[] = {
      {"account", "may_create_patterns", "null", "account"},
      {"account", "may_create_patterns", "null", "admission"},
      {"account", "created_at", "null", "account"},
      {"token", "label", "null", "tokens"},
      {"token", "created_at", "'20000-01-01'", "tokens"},
      {"membership", "role", "7", "memberships"},
      {"editor", "label", "null", "editors"},
      {"editor", "expires_at", "null", "editors"},
      {"pattern", "title", "null", "pattern"},
      {"pattern", "version_count", "-1", "patterns"},
      {"pattern", "revision", "null", "admission"},
  };
  ExpectAllRefused(kCases);
}

TEST_F(UnreadableValues, OfVersionsAreDataLoss) {
  constexpr Case kCases[] = {
      {"version", "note", "null", "versions"},
      {"version", "parent_number", "-2", "version"},
      {"version", "content_hash", "'\\x00'", "versions"},
      {"version", "error_count", "-1", "version"},
      {"version", "comparison_errors", "null", "versions"},
      {"version", "content", "null", "content"},
      {"version", "content", "'\\x'", "content"},
      {"version", "content", "substring(content for 100)", "version"},
      {"version", "content", "content || '\\x00'", "version"},
      {"version", "content", "set_byte(content, 3, 99)", "version"},
      {"version", "content", "set_byte(content, 10, 255)", "content"},
      {"version", "content", "set_byte(content, 14, 90)", "version"},
      {"version", "findings", "null", "version"},
      {"version", "findings", "''", "version"},
      {"version", "findings", "'7'", "version"},
      {"version", "findings", "left(findings, 40)", "version"},
      {"version", "findings", "replace(findings, 'edge-drop', 'edge-drip')", "version"},
      {"version", "findings", "replace(findings, '\"severity\"', '\"weight\"')", "version"},
      {"version", "findings", "replace(findings, '\"seam\":0', '\"seam\":9')", "version"},
      {"version", "findings", "replace(findings, '\"size\":0', '\"size\":1')", "version"},
      {"version", "findings", "replace(findings, '\"size\":0', '\"size\":-1')", "version"},
      {"version", "findings", "replace(findings, '\"row\":4', '\"row\":21')", "version"},
      {"version", "findings", "replace(findings, '\"row\":4', '\"row\":4e99')", "version"},
      {"version", "findings", "replace(findings, '\"row\":4', '\"row\":99999999999')", "version"},
      {"version", "findings", "replace(findings, '\"colour\":\"A\"', '\"colour\":\"Z\"')",
       "version"},
      {"version", "estimates", "'{}'", "version"},
      {"version", "estimates", "'[{}]'", "version"},
      {"version", "estimates", "replace(estimates, '\"minutes\":', '\"minutes\":1e999,\"x\":')",
       "version"},
      {"version", "estimates", "replace(estimates, '\"part\":\"stitches\"', '\"part\":\"x\"')",
       "version"},
      {"version", "estimates", "replace(estimates, '\"size\":\"one size\"', '\"size\":1')",
       "version"},
      {"version", "comparison", "null", "version"},
      {"version", "comparison", "replace(comparison, 'US', 'FR')", "version"},
      {"version", "comparison", "replace(comparison, '\"sizes\":[0]', '\"sizes\":[1]')", "version"},
      {"version", "comparison", "replace(comparison, '\"sizes\":[0]', '\"sizes\":[]')", "version"},
      {"version", "comparison", "replace(comparison, '\"off_by\":[1]', '\"off_by\":[]')",
       "version"},
      {"version", "comparison", "replace(comparison, '\"rows\":[4]', '\"rows\":{}')", "version"},
  };
  ExpectAllRefused(kCases);
}

// Every seventh byte of the encoding in turn, with a hash that fits: read as another content, or
// refused.
TEST_F(UnreadableValues, OfAnyByteOfAContentNeverEndTheProcess) {
  const std::string kept = Execute("select encode(content, 'hex') from version");
  const size_t bytes = kept.size() / 2;
  size_t refused = 0;
  for (size_t at = 0; at < bytes; at += 7) {
    admin_.exec("update version set content = set_byte(decode('" + kept + "', 'hex'), " +
                std::to_string(at) + ", 255)");
    admin_.exec("update version set content_hash = sha256(content)");
    const absl::Status status = ReadBy("content");
    if (status.ok()) continue;
    ++refused;
    ASSERT_EQ(status.code(), absl::StatusCode::kDataLoss) << at << ": " << status;
  }
  EXPECT_GT(refused, bytes / 7 / 3);
}

TEST_F(UnreadableValues, OfCallsAndSeatsAreDataLoss) {
  constexpr Case kCases[] = {
      {"test_call", "state", "0", "call"},
      {"test_call", "state", "4", "admission"},
      {"test_call", "version_number", "0", "calls"},
      {"test_call", "revision", "-1", "report admission"},
      {"test_call", "settings", "null", "call"},
      {"test_call", "settings", "'[]'", "call"},
      {"test_call", "settings", "settings - 'title'", "call"},
      {"test_call", "settings", "settings || '{\"yarn\": \"any\"}'", "calls"},
      {"test_call", "settings", "settings || '{\"deadline\": \"2026-02-31\"}'", "call"},
      {"test_call", "settings", "settings || '{\"sizes\": [{\"size\": \"M\"}]}'", "call"},
      // Written again with the next change, what this build does not know would be lost.
      {"test_call", "settings", "settings || '{\"more\": 1}'", "call"},
      {"call_version", "sent_at", "null", "sent"},
      {"seat", "state", "9", "seat"},
      {"seat", "state", "9", "report admission"},
      {"seat", "state", "null", "seat states"},
      {"seat", "size_name", "null", "seats"},
      {"seat", "taken_at", "'100000-01-01'", "seat"},
      {"seat", "report_count", "-1", "seat"},
  };
  ExpectAllRefused(kCases);
}

TEST_F(UnreadableValues, OfReportsAreDataLoss) {
  constexpr Case kCases[] = {
      {"report", "version_number", "-1", "report"},
      {"report", "size_name", "null", "reports"},
      {"report", "worked_from", "4", "report"},
      {"report", "hand", "2", "report"},
      {"report", "terms", "-1", "report"},
      {"report", "ends", "3", "report"},
      {"report", "on_behalf", "null", "report"},
      {"report", "created_at", "null", "report"},
      {"report", "yarn_colour", "'{9}'", "report"},
      {"report", "yarn_colour", "'{{0}}'", "report"},
      {"report", "yarn_colour", "'[2:2]={0}'", "report"},
      {"report", "yarn_is_own", "'{NULL}'", "report"},
      {"report", "yarn_name", "'{}'", "report"},
      {"report", "yarn_fibre", "null", "report"},
      {"report", "yarn_weight_class", "'{-4}'", "report"},
      {"report", "yarn_tex", "'{1,2}'", "report"},
      {"report", "yarn_length_m", "'{NaN}'", "report"},
      {"report", "yarn_length_step_m", "'{Infinity}'", "report"},
      {"report", "yarn_with_border", "'{t,f}'", "report"},
      {"report", "hook_mm", "1e300", "report"},
      {"report", "gauge_rows", "'{NULL}'", "report"},
      {"report", "gauge_scale_step_mm", "'{1,1}'", "report"},
      {"report", "how_blocked", "null", "report"},
      {"report", "tape_step_mm", "null", "report"},
      {"report", "minutes", "'-Infinity'", "report"},
      {"report", "last_row", "-1", "report"},
      {"report", "last_row", "-1", "steps"},
      {"report", "finished", "null", "report"},
      {"report", "erratum_first", "'{}'", "report"},
      {"report", "erratum_seen_in", "'{4}'", "report"},
      {"report", "erratum_counted_from", "'{NULL}'", "report"},
      {"report", "erratum_remark", "'{a,b}'", "report"},
  };
  ExpectAllRefused(kCases);
}

TEST_F(UnreadableValues, OfErrataAreDataLoss) {
  constexpr Case kCases[] = {
      {"erratum", "state", "9", "erratum"},
      {"erratum", "kind", "8", "errata"},
      {"erratum", "kind", "8", "report admission"},
      {"erratum", "worked_row", "-1", "report admission"},
      {"erratum", "worked_row", "null", "erratum"},
      {"erratum", "first_stitch", "-3", "erratum"},
      {"erratum", "was", "null", "report admission"},
      {"erratum", "decision_note", "null", "erratum"},
      {"erratum", "listed_at", "null", "erratum"},
      {"erratum_confirmation", "confirmation", "3", "erratum"},
      {"erratum_confirmation", "confirmed_at", "null", "errata"},
  };
  ExpectAllRefused(kCases);
}

TEST_F(UnreadableValues, OfReconciliationsAndReleasesAreDataLoss) {
  constexpr Case kCases[] = {
      {"set_aside", "quantity", "13", "set aside"},
      {"set_aside", "note", "null", "set aside"},
      {"reconciliation", "version_number", "0", "reconciliation"},
      {"reconciliation", "result", "null", "reconciliation"},
      {"reconciliation", "result", "result - 'reports'", "reconciliation"},
      {"reconciliation", "result", "result - 'reports'", "reconciliations"},
      {"reconciliation", "result", "jsonb_set(result, '{reports,0,seat}', '7')", "reconciliations"},
      {"reconciliation", "result", "jsonb_set(result, '{quantities,0,quantity}', '99')",
       "reconciliation"},
      {"reconciliation", "result", "jsonb_set(result, '{quantities,0,measurements}', '{}')",
       "reconciliation"},
      {"reconciliation", "result", "jsonb_set(result, '{undiscovered,estimator}', '-1')",
       "reconciliation"},
      {"release", "gate_code", "'{9}'", "release"},
      {"release", "gate_state", "'{1,1}'", "release"},
      {"release", "gate_reason", "'{NULL}'", "release"},
      {"release", "versions_concerned", "'{0}'", "release"},
      {"release", "reconciliation", "-1", "release"},
      {"release", "withdraw_reason", "null", "release"},
      {"release_file", "content_sha256", "'\\x00'", "release"},
      {"release_file", "content", "'\\x00'", "file"},
  };
  ExpectAllRefused(kCases);
}

TEST_F(UnreadableValues, OfCalibrationsAreDataLoss) {
  constexpr Case kCases[] = {
      {"calibration", "technique", "3", "calibration"},
      {"calibration", "facing", "-1", "calibration"},
      {"calibration", "weight_class", "8", "calibration"},
      {"calibration", "title", "null", "calibration"},
      {"calibration_revision", "note", "null", "revisions"},
      {"calibration_revision", "path", "'{1}'", "revision"},
      {"calibration_revision", "covariance", "'{1,2,3}'", "revision"},
      {"calibration_revision", "mean_fabric_mm", "'{1,2,NaN}'", "revision"},
      {"calibration_revision", "relative_after", "null", "revision"},
      {"calibration_measurement", "kind", "3", "measurements"},
      {"calibration_measurement", "ssc", "'NaN'", "measurements"},
      {"calibration_measurement", "relative_spread", "null", "measurements"},
  };
  ExpectAllRefused(kCases);
}

// The connection goes back clean: the pool has two, and each was asked more often than that.
TEST_F(UnreadableValues, LeaveTheConnectionInOrder) {
  Execute("update account set may_create_patterns = null where account_id = 'ada'");
  for (int i = 0; i < 20; ++i) {
    EXPECT_EQ(ReadBy("account").code(), absl::StatusCode::kDataLoss);
    const absl::Status written = Write([](Transaction& transaction, const Admission&) {
      UpdatePatternTitle(transaction, kPattern, "Never kept");
      LoadAccount(transaction, {"ada"});
      return absl::OkStatus();
    });
    EXPECT_EQ(written.code(), absl::StatusCode::kDataLoss);
  }
  EXPECT_EQ(Execute("select title from pattern"), "Pattern shawl");
  EXPECT_EQ(Execute("select count(*) > 8 from pg_stat_activity where datname = current_database()"),
            "f");
}

TEST(UnreadableValue, IsBytesThatAreNotUtf8AndNumbersThatAreNone) {
  EXPECT_THROW(TextOf("\xc3", "title"), UnreadableValue);
  EXPECT_THROW(CountOf("1.5", "row"), UnreadableValue);
  EXPECT_THROW(CountOf("99999999999", "row"), UnreadableValue);
  EXPECT_THROW(RealOf("1e16", "width_mm"), UnreadableValue);
  EXPECT_THROW(FlagOf("true", "finished"), UnreadableValue);
  EXPECT_EQ(TextOf("\xc3\xa9", "title"), "\xc3\xa9");
  EXPECT_EQ(RealOf("-1e+15", "width_mm"), -1e15);
}

}  // namespace
}  // namespace rowproof::storage
