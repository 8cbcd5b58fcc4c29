// Rows of test calls and of the versions that their testers were sent. Every function throws
// libpqxx's exceptions, which end in Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_TEST_CALLS_H_
#define ROWPROOF_STORAGE_TEST_CALLS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/testcalls/test_call.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

// With its first call_version: a call's version counts as sent from the beginning.
void InsertTestCall(Transaction& transaction, const testcalls::TestCallRecord& call);
std::optional<testcalls::TestCallRecord> LoadTestCall(Transaction& transaction,
                                                      const PatternId& pattern, const CallId& call);
// Calls of a pattern, newest first, after (before, before_id) if given; only those in which
// `tester` holds or held a seat, if that is not empty.
std::vector<testcalls::TestCallRecord> ListTestCalls(Transaction& transaction,
                                                     const PatternId& pattern,
                                                     const AccountId& tester,
                                                     std::optional<Moment> before,
                                                     const CallId& before_id, int limit);
// State, settings and revision, by its identifiers.
void UpdateTestCall(Transaction& transaction, const testcalls::TestCallRecord& call);
// With its seats and all that hangs on them. Whether a release names it is looked up first.
void DeleteTestCall(Transaction& transaction, const PatternId& pattern, const CallId& call);
bool IsReleased(Transaction& transaction, const PatternId& pattern, const CallId& call);
// Makes `call.version_number` the present version, and records that it was sent.
void InsertSentVersion(Transaction& transaction, const testcalls::TestCallRecord& call,
                       Moment sent_at);
// In the order of sending.
std::vector<testcalls::SentVersion> ListSentVersions(Transaction& transaction,
                                                     const PatternId& pattern, const CallId& call);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_TEST_CALLS_H_
