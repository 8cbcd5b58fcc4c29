#include "services/domain/releases/gates.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "services/domain/errors.h"

namespace rowproof::releases {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

GateFacts Settled() {
  GateFacts facts;
  facts.testers_required = 2;
  facts.has_call = true;
  facts.sizes = {{"S", 2, 0}, {"M", 3, 0}};
  return facts;
}

std::vector<GateCode> OpenGates(const GateFacts& facts) {
  std::vector<GateCode> open;
  for (const Gate& gate : EvaluateGates(facts)) {
    EXPECT_FALSE(gate.sentence.empty());
    EXPECT_NE(gate.state, GateState::kPassedOver);
    if (gate.state == GateState::kOpen) open.push_back(gate.code);
  }
  return open;
}

const Gate& GateOf(const std::vector<Gate>& gates, GateCode code) {
  return gates[static_cast<size_t>(code)];
}

TEST(Gates, AreAllMetWhenEverythingIsSettled) {
  EXPECT_EQ(EvaluateGates(Settled()).size(), kGates);
  EXPECT_THAT(OpenGates(Settled()), ElementsAre());
  EXPECT_TRUE(MayPublish(EvaluateGates(Settled()), {}).ok());
}

TEST(Gates, AreOpenEachByItsOwnFact) {
  GateFacts facts = Settled();
  facts.workability_errors = 1;
  EXPECT_THAT(OpenGates(facts), ElementsAre(GateCode::kChartWorkable));
  facts = Settled();
  facts.errata_undecided = 2;
  EXPECT_THAT(OpenGates(facts), ElementsAre(GateCode::kErrataDecided));
  facts = Settled();
  facts.sizes[1].finished_testers = 1;
  EXPECT_THAT(OpenGates(facts), ElementsAre(GateCode::kSizesTested));
  facts = Settled();
  facts.quantities_unreconciled = {"yarn B"};
  EXPECT_THAT(OpenGates(facts), ElementsAre(GateCode::kPredictionsReconciled));
}

TEST(Gates, TakeTheDesignersOwnTextOnlyWhenItWasComparedAndEquals) {
  GateFacts facts = Settled();
  facts.has_designer_text = true;
  EXPECT_THAT(OpenGates(facts), ElementsAre(GateCode::kTextEqualsChart));
  facts.text_compared = true;
  EXPECT_THAT(OpenGates(facts), ElementsAre());
  facts.text_errors = 1;
  facts.sizes[0].text_differences = 1;
  EXPECT_THAT(OpenGates(facts), ElementsAre(GateCode::kTextEqualsChart));
  EXPECT_EQ(
      GateOf(EvaluateGates(facts), GateCode::kTextEqualsChart).sentence,
      "The designer's own rows do not agree with the chart: 1 error (1 difference in size S).");
  // A row that could not be read differs in no size that is known.
  facts.sizes[0].text_differences = 0;
  EXPECT_THAT(OpenGates(facts), ElementsAre(GateCode::kTextEqualsChart));
  EXPECT_THAT(GateOf(EvaluateGates(facts), GateCode::kTextEqualsChart).sentence,
              HasSubstr("1 error (rows that cannot be read)."));
  // Rows written from the chart have no differences to be counted.
  facts.has_designer_text = false;
  EXPECT_THAT(OpenGates(facts), ElementsAre());
}

TEST(Gates, NameEverySizeThatLacksTesters) {
  GateFacts facts = Settled();
  facts.sizes = {{"S", 0, 0}, {"M", 1, 0}, {"L", 2, 0}};
  EXPECT_EQ(GateOf(EvaluateGates(facts), GateCode::kSizesTested).sentence,
            "Size S: 0 of 2 testers have finished the rows as they now read. "
            "Size M: 1 of 2 testers have finished the rows as they now read.");
}

TEST(Gates, SayThatNoCallWasNamed) {
  GateFacts facts = Settled();
  facts.has_call = false;
  facts.sizes[0].finished_testers = 0;
  facts.quantities_unreconciled = {"width"};
  const auto gates = EvaluateGates(facts);
  for (const GateCode code : {GateCode::kSizesTested, GateCode::kPredictionsReconciled}) {
    EXPECT_THAT(GateOf(gates, code).sentence, HasSubstr("No test call was named"));
    EXPECT_THAT(GateOf(gates, code).sentence, testing::Not(HasSubstr("0 of 2")));
  }
}

TEST(Publishing, IsRefusedWithOneConditionForEachOpenGate) {
  GateFacts facts = Settled();
  facts.errata_undecided = 1;
  facts.workability_errors = 3;
  const absl::Status status = MayPublish(EvaluateGates(facts), {});
  EXPECT_EQ(status.code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_THAT(
      DetailOf(status).conditions,
      ElementsAre(UnmetCondition{"CHART_WORKABLE", "chart-workable",
                                 "The chart has 3 errors; correct it and submit a new version."},
                  UnmetCondition{"ERRATA_DECIDED", "errata-decided",
                                 "1 reported erratum is still to be decided."}));
}

TEST(Publishing, PassesOverAGateOnlyWithAReasonAndRecordsIt) {
  GateFacts facts = Settled();
  facts.sizes[0].finished_testers = 0;
  const auto gates = EvaluateGates(facts);
  const std::vector<Waiver> waivers = {
      {GateCode::kSizesTested, "Size S differs from M in its repeats only."}};
  EXPECT_FALSE(MayPublish(gates, {}).ok());
  EXPECT_TRUE(MayPublish(gates, waivers).ok());
  const auto recorded = PassOver(gates, waivers);
  ASSERT_TRUE(recorded.ok());
  EXPECT_EQ(GateOf(*recorded, GateCode::kSizesTested).state, GateState::kPassedOver);
  EXPECT_EQ(GateOf(*recorded, GateCode::kSizesTested).reason, waivers[0].reason);
}

TEST(Publishing, StaysRefusedWhileAnotherGateIsOpen) {
  GateFacts facts = Settled();
  facts.errata_undecided = 1;
  facts.workability_errors = 1;
  const absl::Status status =
      MayPublish(EvaluateGates(facts), {{GateCode::kErrataDecided, "Will follow next week."}});
  ASSERT_EQ(DetailOf(status).conditions.size(), 1u);
  EXPECT_EQ(DetailOf(status).conditions[0].subject, "chart-workable");
}

TEST(Publishing, DropsAWaiverOfAGateThatIsMet) {
  const auto gates = EvaluateGates(Settled());
  const auto recorded = PassOver(gates, {{GateCode::kErrataDecided, "In case one comes in."}});
  ASSERT_TRUE(recorded.ok());
  EXPECT_EQ(*recorded, gates);
}

TEST(Publishing, RefusesReasonsThatAreNone) {
  GateFacts facts = Settled();
  facts.errata_undecided = 1;
  const auto gates = EvaluateGates(facts);
  const auto field = [&](const std::vector<Waiver>& waivers) {
    const absl::Status status = MayPublish(gates, waivers);
    EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
    const auto fields = DetailOf(status).fields;
    return fields.empty() ? std::string("?") : fields[0].field;
  };
  const auto code = GateCode::kErrataDecided;
  EXPECT_EQ(field({{code, ""}}), "waivers[0].reason");
  EXPECT_EQ(field({{code, "    \n         "}}), "waivers[0].reason");
  EXPECT_EQ(field({{code, "too short"}}), "waivers[0].reason");
  EXPECT_EQ(field({{code, std::string(2'001, 'a')}}), "waivers[0].reason");
  EXPECT_EQ(field({{code, std::string("long enough\0but", 15)}}), "waivers[0].reason");
  EXPECT_EQ(field({{code, "long enough"}, {code, "long enough"}}), "waivers[1].code");
}

TEST(GateCodes, AreStable) {
  const char* const codes[] = {"chart-workable", "text-equals-chart", "errata-decided",
                               "sizes-tested", "predictions-reconciled"};
  for (size_t i = 0; i < kGates; ++i) {
    EXPECT_STREQ(CodeName(static_cast<GateCode>(i)), codes[i]);
  }
}

TEST(Gates, NameTheOpenOnesInTheirRefusal) {
  GateFacts facts = Settled();
  facts.errata_undecided = 1;
  facts.workability_errors = 1;
  const absl::Status status = MayPublish(EvaluateGates(facts), {});
  EXPECT_THAT(std::string(status.message()),
              testing::StartsWith("Gates open: chart-workable, errata-decided."));
}

TEST(Gates, MayAskEachSizeForAnotherNumberOfTesters) {
  GateFacts facts = Settled();
  facts.sizes = {{"S", 1, 0, 1}, {"M", 2, 0, 3}};
  const Gate gate = EvaluateGates(facts)[static_cast<size_t>(GateCode::kSizesTested)];
  EXPECT_EQ(gate.state, GateState::kOpen);
  EXPECT_EQ(gate.sentence, "Size M: 2 of 3 testers have finished the rows as they now read.");
}

}  // namespace
}  // namespace rowproof::releases
