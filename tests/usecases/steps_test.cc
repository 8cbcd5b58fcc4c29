// What is made from much of a pattern says only what is so: whatever was written while it was made
// is seen before it is stored.
#include <gmock/gmock.h>

#include <pqxx/pqxx>

#include "services/usecases/patterns.h"
#include "services/usecases/reconciliations.h"
#include "services/usecases/releases.h"
#include "services/usecases/reports/errata.h"
#include "services/usecases/transactions.h"
#include "tests/usecases/usecases_fixture.h"

namespace rowproof::usecases {
namespace {

using releases::GateCode;

// Does something at the first looks of a computation, which holds no connection then.
class ActsAtLooks : public StopSignal {
 public:
  ActsAtLooks(int looks, std::function<void()> act) : left_(looks), act_(std::move(act)) {}
  absl::Status Look() override {
    if (left_ > 0) {
      --left_;
      act_();
    }
    return absl::OkStatus();
  }
  int left() const { return left_; }

 private:
  int left_;
  std::function<void()> act_;
};

class StepsTest : public UsecasesTest {
 protected:
  StepsTest() {
    RequestContext context = From("ada", "PatternService.CreateVersion");
    const auto submitted = SubmitVersion(application_, context, Submission());
    EXPECT_TRUE(submitted.ok()) << submitted.status();
  }
  void Decide(faults::ErratumState state) {
    RequestContext context = From("ada", "ReportService.DecideErratum");
    const auto decided =
        DecideErratum(application_, context, kPattern, kCall, {"e1"}, state, "Invented.");
    EXPECT_TRUE(decided.ok()) << decided.status();
  }
  void Rename(const std::string& title) {
    RequestContext context = From("ada", "PatternService.UpdatePattern");
    const auto renamed = UpdatePattern(application_, context, kPattern, title, std::nullopt);
    EXPECT_TRUE(renamed.ok()) << renamed.status();
  }
  // Everything that is open is passed over but the errata.
  ReleaseOrder Order() {
    ReleaseOrder order;
    order.pattern = kPattern;
    order.version = 2;
    RequestContext context = From("ada", "ReleaseService.GetGates");
    const auto gates = GetGates(application_, context, kPattern, 2, {});
    EXPECT_TRUE(gates.ok()) << gates.status();
    for (const auto& gate : *gates) {
      if (gate.state == releases::GateState::kOpen && gate.code != GateCode::kErrataDecided) {
        order.waivers.push_back({gate.code, "It is invented."});
      }
    }
    return order;
  }
};

TEST_F(StepsTest, SeeAnErratumThatIsReopenedWhileAReleaseIsMade) {
  Decide(faults::ErratumState::kAccepted);
  const ReleaseOrder order = Order();
  ActsAtLooks reopens(1, [this] { Decide(faults::ErratumState::kOpen); });
  RequestContext context = From("ada", "ReleaseService.CreateRelease");
  context.stop = Stop(reopens);
  const auto refused = CreateRelease(application_, context, order);
  EXPECT_EQ(reopens.left(), 0);
  ASSERT_EQ(DetailOf(refused.status()).conditions.size(), 1u) << refused.status();
  EXPECT_EQ(Count("release"), "1");
}

TEST_F(StepsTest, SeeAMeasurementThatCountsAgainWhileAReconciliationIsMade) {
  RequestContext reading = From("ada", "ReconciliationService.ListSetAsides");
  const auto page = ListSetAsides(application_, reading, kPattern, kCall, {}, 0, 10);
  ASSERT_TRUE(page.ok() && page->set_asides.size() == 1u) << page.status();
  ActsAtLooks counts_again(1, [&] {
    RequestContext context = From("ada", "ReconciliationService.DeleteSetAside");
    EXPECT_TRUE(
        DeleteSetAside(application_, context, {kPattern, kCall, page->set_asides.front().id}).ok());
  });
  RequestContext context = From("ada", "ReconciliationService.CreateReconciliation");
  context.stop = Stop(counts_again);
  const auto made = CreateReconciliation(application_, context, kPattern, kCall);
  ASSERT_TRUE(made.ok()) << made.status();
  EXPECT_EQ(counts_again.left(), 0);
  EXPECT_TRUE(made->result.set_aside.empty());
}

// Renames the pattern while `make` runs, so often; says what was read and stored, and in how many
// turns.
struct Turns {
  int reads = 0;
  std::string read;
  std::string stored;
};

TEST_F(StepsTest, AreTakenAgainUntilNothingHasChanged) {
  for (const int changes : {0, 1, 2}) {
    Turns turns;
    int left = changes;
    Steps steps;
    steps.read = [&](storage::Transaction&, const storage::Admission& who) {
      ++turns.reads;
      turns.read = who.pattern->title;
      return absl::OkStatus();
    };
    steps.make = [&] {
      if (left-- > 0) Rename("Rush mat " + std::to_string(10 * changes + left));
      return absl::OkStatus();
    };
    steps.write = [&](storage::Transaction&, const storage::Admission& who) {
      turns.stored = who.pattern->title;
      return absl::OkStatus();
    };
    RequestContext context = From("ada", "ReleaseService.CreateRelease");
    EXPECT_TRUE(InSteps(application_, context, PatternTarget(kPattern), steps).ok());
    EXPECT_EQ(turns.reads, changes + 1);
    EXPECT_EQ(turns.read, turns.stored);
  }
}

TEST_F(StepsTest, MakeTheOthersWaitAtLast) {
  Turns turns;
  std::vector<std::thread> others;
  Steps steps;
  steps.read = [&](storage::Transaction&, const storage::Admission& who) {
    ++turns.reads;
    turns.read = who.pattern->title;
    return absl::OkStatus();
  };
  steps.make = [&] {
    others.emplace_back(
        [this, turn = turns.reads] { Rename("Sedge mat " + std::to_string(turn)); });
    if (turns.reads <= 3) others.back().join();
    return absl::OkStatus();
  };
  steps.write = [&](storage::Transaction&, const storage::Admission&) { return absl::OkStatus(); };
  RequestContext context = From("ada", "ReleaseService.CreateRelease");
  EXPECT_TRUE(InSteps(application_, context, PatternTarget(kPattern), steps).ok());
  others.back().join();
  EXPECT_EQ(turns.reads, 4);
  EXPECT_EQ(turns.read, "Sedge mat 3");
  EXPECT_EQ(Execute("select title from pattern where pattern_id = '" + kPattern.value + "'"),
            "Sedge mat 4");
}

}  // namespace
}  // namespace rowproof::usecases
