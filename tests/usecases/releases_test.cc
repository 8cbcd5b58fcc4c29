// Publishing a version: gates that are not met are passed over with a reason, or nothing is stored.
#include "services/usecases/releases.h"

#include <gmock/gmock.h>

#include <pqxx/pqxx>

#include "tests/usecases/usecases_fixture.h"

namespace rowproof::usecases {
namespace {

using releases::GateCode;
using releases::GateState;

class Releases : public UsecasesTest {
 protected:
  Releases() {
    RequestContext context = From("ada", "PatternService.CreateVersion");
    const auto submitted = SubmitVersion(application_, context, Submission());
    EXPECT_TRUE(submitted.ok()) << submitted.status();
  }

  // Of version 2, whose chart can be worked; no call counts.
  static ReleaseOrder Order() {
    ReleaseOrder order;
    order.pattern = kPattern;
    order.version = 2;
    return order;
  }
  absl::StatusOr<releases::ReleaseRecord> Publish(const ReleaseOrder& order) {
    RequestContext context = From("ada", "ReleaseService.CreateRelease");
    return CreateRelease(application_, context, order);
  }
  // The gates that are open for that order.
  std::vector<releases::Gate> OpenGates() {
    RequestContext context = From("ada", "ReleaseService.GetGates");
    const auto gates = GetGates(application_, context, kPattern, 2, {});
    EXPECT_TRUE(gates.ok()) << gates.status();
    std::vector<releases::Gate> open;
    if (!gates.ok()) return open;
    for (const auto& gate : *gates) {
      if (gate.state == GateState::kOpen) open.push_back(gate);
    }
    return open;
  }
  ReleaseOrder WaivingAll() {
    ReleaseOrder order = Order();
    for (const auto& gate : OpenGates()) order.waivers.push_back({gate.code, "It is invented."});
    return order;
  }
};

TEST_F(Releases, SayWhetherACallWasNamed) {
  const auto sentence = [&](const CallId& call) {
    RequestContext context = From("ada", "ReleaseService.GetGates");
    const auto gates = GetGates(application_, context, kPattern, 2, call);
    EXPECT_TRUE(gates.ok()) << gates.status();
    return gates.ok() ? (*gates)[static_cast<size_t>(GateCode::kSizesTested)].sentence : "";
  };
  EXPECT_THAT(sentence({}), ::testing::HasSubstr("No test call was named"));
  EXPECT_THAT(sentence(kCall), ::testing::Not(::testing::HasSubstr("No test call was named")));
}

TEST_F(Releases, NameEveryGateThatIsOpen) {
  const auto open = OpenGates();
  ASSERT_GE(open.size(), 2u);
  const auto refused = Publish(Order());
  EXPECT_EQ(refused.status().code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_EQ(DetailOf(refused.status()).conditions.size(), open.size());
  ReleaseOrder all_but_one = WaivingAll();
  all_but_one.waivers.pop_back();
  EXPECT_EQ(DetailOf(Publish(all_but_one).status()).conditions.size(), 1u);
  EXPECT_EQ(Count("release"), "1");
}

TEST_F(Releases, PassAGateOverOnlyForAReason) {
  ReleaseOrder order = WaivingAll();
  for (const std::string& reason :
       {std::string(), std::string("too short"), std::string("  short   "),
        std::string(releases::kLongestReason + 1, 'x')}) {
    order.waivers.front().reason = reason;
    EXPECT_EQ(FieldOf(Publish(order).status()), "waivers[0].reason") << reason;
  }
  EXPECT_EQ(Count("release"), "1");
}

TEST_F(Releases, PassNoGateOverTwiceAndNeverThatOfTheChart) {
  ReleaseOrder twice = WaivingAll();
  twice.waivers.push_back(twice.waivers.front());
  EXPECT_EQ(FieldOf(Publish(twice).status()),
            "waivers[" + std::to_string(twice.waivers.size() - 1) + "].code");
  ReleaseOrder chart = Order();
  chart.waivers = {{GateCode::kChartWorkable, "It is invented."}};
  EXPECT_EQ(FieldOf(Publish(chart).status()), "waivers[0].code");
}

TEST_F(Releases, StoreNothingThatIsOnlyChecked) {
  ReleaseOrder checked = Order();
  checked.validate_only = true;
  const std::string files = Count("release_file");
  const auto shown = Publish(checked);
  ASSERT_TRUE(shown.ok()) << shown.status();
  EXPECT_TRUE(shown->id.empty());
  EXPECT_TRUE(shown->files.empty());
  EXPECT_EQ(shown->gates.size(), releases::kGates);
  EXPECT_EQ(Count("release"), "1");
  EXPECT_EQ(Count("release_file"), files);
}

TEST_F(Releases, KeepTheReasonsWithTheirFiles) {
  const auto published = Publish(WaivingAll());
  ASSERT_TRUE(published.ok()) << published.status();
  int passed_over = 0;
  for (const auto& gate : published->gates) {
    EXPECT_NE(gate.state, GateState::kOpen);
    if (gate.state != GateState::kPassedOver) continue;
    ++passed_over;
    EXPECT_EQ(gate.reason, "It is invented.");
  }
  EXPECT_GE(passed_over, 2);
  EXPECT_EQ(published->files.size(), 3u);
  EXPECT_EQ(Count("release"), "2");
  EXPECT_EQ(Count("release_file"), "6");
}

TEST_F(Releases, AreWithdrawnOnceAndForAReason) {
  const auto withdraw = [this](const std::string& reason) {
    RequestContext context = From("ada", "ReleaseService.WithdrawRelease");
    return WithdrawRelease(application_, context, kPattern, {"r1"}, reason).status();
  };
  EXPECT_EQ(FieldOf(withdraw("")), "reason");
  EXPECT_EQ(FieldOf(withdraw("too short")), "reason");
  EXPECT_EQ(FieldOf(withdraw(std::string(20, ' '))), "reason");
  EXPECT_TRUE(withdraw("A row is wrong.").ok());
  EXPECT_EQ(ReasonOf(withdraw("A row is wrong.")), "RELEASE_STATE");
  RequestContext reading = From("tea", "ReleaseService.GetReleaseFile");
  const auto file = GetReleaseFile(application_, reading, kPattern, {"r1"},
                                   releases::ReleaseFileKind::kErrataSheetText);
  ASSERT_TRUE(file.ok()) << file.status();
  EXPECT_TRUE(file->withdrawn);
}

}  // namespace
}  // namespace rowproof::usecases
