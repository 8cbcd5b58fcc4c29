// A filled database with an application over it, whose requests come from its accounts. Included
// after <pqxx/pqxx>.
#ifndef ROWPROOF_TESTS_USECASES_USECASES_FIXTURE_H_
#define ROWPROOF_TESTS_USECASES_USECASES_FIXTURE_H_

#include <functional>
#include <string>
#include <thread>
#include <vector>

#include "services/domain/errors.h"
#include "services/usecases/application.h"
#include "services/usecases/request_context.h"
#include "services/usecases/submit_version.h"
#include "tests/domain/estimate/sample_designs.h"
#include "tests/storage/filled_fixture.h"

namespace rowproof::usecases {

class UsecasesTest : public storage::FilledStorage {
 protected:
  // Of an account by its token; "": nobody signed in.
  static RequestContext From(const std::string& account, const std::string& method,
                             const std::string& request_id = "") {
    RequestContext context;
    context.method = method;
    context.deadline = Later();
    if (!account.empty()) context.token_sha256 = Sha256Of(account);
    context.request_id = request_id;
    return context;
  }
  // Of kPattern's next version: a workable chart.
  static VersionSubmission Submission(const std::string& note = "") {
    VersionSubmission submission;
    submission.pattern = kPattern;
    submission.content.materials = estimate::RoundMaking();
    submission.source.design = estimate::TwentyRows();
    submission.note = note;
    return submission;
  }
  // "" if it is no refusal.
  static std::string ReasonOf(const absl::Status& status) { return DetailOf(status).reason; }
  static std::string FieldOf(const absl::Status& status) {
    const auto fields = DetailOf(status).fields;
    return fields.empty() ? "" : fields.front().field;
  }
  // Rows of a table.
  std::string Count(const std::string& table) { return Execute("select count(*) from " + table); }

  // Runs both at once, each in a thread of its own, and waits for them.
  static void AtOnce(const std::function<void()>& first, const std::function<void()>& second) {
    std::thread other(second);
    first();
    other.join();
  }

  testing::NumberedIdentifiers identifiers_;
  VersionCache versions_;
  Application application_{database_, identifiers_, clock_, versions_};
};

}  // namespace rowproof::usecases

#endif  // ROWPROOF_TESTS_USECASES_USECASES_FIXTURE_H_
