// Versions as one submits them: their numbers, and which of them may be sent.
#include <gmock/gmock.h>

#include <pqxx/pqxx>

#include "services/usecases/calls/test_calls.h"
#include "services/usecases/read_version.h"
#include "tests/usecases/usecases_fixture.h"

namespace rowproof::usecases {
namespace {

using ::testing::UnorderedElementsAre;

class Versions : public UsecasesTest {
 protected:
  // A drop in row 1 has nothing to drop to.
  static VersionSubmission Draft() {
    VersionSubmission submission = Submission();
    submission.source.design.cells.set(1, 12, true);
    return submission;
  }
  absl::StatusOr<SubmittedVersion> Submit(VersionSubmission submission) {
    RequestContext context = From("ada", "PatternService.CreateVersion");
    return SubmitVersion(application_, context, std::move(submission));
  }
  int NumberOf(VersionSubmission submission) {
    const auto submitted = Submit(std::move(submission));
    EXPECT_TRUE(submitted.ok()) << submitted.status();
    return submitted.ok() ? submitted->version.row.number : 0;
  }
};

TEST_F(Versions, AreNumberedWithoutGapsWhenTwoSubmitAtOnce) {
  std::vector<int> first;
  std::vector<int> second;
  AtOnce(
      [&] {
        for (int i = 0; i < 3; ++i) first.push_back(NumberOf(Submission("first")));
      },
      [&] {
        for (int i = 0; i < 3; ++i) second.push_back(NumberOf(Submission("second")));
      });
  first.insert(first.end(), second.begin(), second.end());
  EXPECT_THAT(first, UnorderedElementsAre(2, 3, 4, 5, 6, 7));
  EXPECT_EQ(Execute("select version_count from pattern where pattern_id = 'shawl'"), "7");
}

TEST_F(Versions, LeaveNoGapWhereOneWasRefused) {
  VersionSubmission wrong = Submission();
  wrong.content.level = std::string(61, 'x');
  EXPECT_EQ(Submit(std::move(wrong)).status().code(), absl::StatusCode::kInvalidArgument);
  VersionSubmission noted = Submission(std::string(kLongestVersionNote + 1, 'x'));
  EXPECT_EQ(FieldOf(Submit(std::move(noted)).status()), "note");
  EXPECT_EQ(NumberOf(Submission()), 2);
}

TEST_F(Versions, AreEstimatedForNoEndsThatTheyCannotHave) {
  ASSERT_EQ(NumberOf(Submission()), 2);
  const auto estimated = [&](std::optional<chart::Ends> ends) {
    RequestContext context = From("ada", "PatternService.EstimateVersion");
    EstimateQuestion question;
    question.another_maker.ends = ends;
    return EstimateVersion(application_, context, kPattern, 2, question).status();
  };
  EXPECT_TRUE(estimated(std::nullopt).ok());
  EXPECT_TRUE(estimated(chart::Ends::kCarried).ok());
  EXPECT_EQ(FieldOf(estimated(chart::Ends::kWaiting)), "another_maker.ends");
}

TEST_F(Versions, AreNotStoredWhereTheyAreOnlyChecked) {
  VersionSubmission checked = Submission();
  checked.validate_only = true;
  const auto answer = Submit(std::move(checked));
  ASSERT_TRUE(answer.ok()) << answer.status();
  EXPECT_EQ(answer->version.row.number, 2);  // what it would get
  EXPECT_FALSE(answer->version.row.estimates.empty());
  EXPECT_EQ(Count("version"), "1");
  EXPECT_EQ(Execute("select version_count from pattern where pattern_id = 'shawl'"), "1");
}

TEST_F(Versions, KnowTheOneTheyWereMadeFrom) {
  EXPECT_EQ(NumberOf(Submission()), 2);
  VersionSubmission from_first = Submission();
  from_first.parent_number = 1;
  const auto made = Submit(std::move(from_first));
  ASSERT_TRUE(made.ok()) << made.status();
  EXPECT_EQ(made->version.row.parent_number, 1);
  EXPECT_EQ(Submit(Submission())->version.row.parent_number, 3);
}

TEST_F(Versions, AreFromNoVersionThatDoesNotExist) {
  VersionSubmission orphan = Submission();
  orphan.parent_number = 7;
  EXPECT_EQ(FieldOf(Submit(std::move(orphan)).status()), "parent_version");
  EXPECT_EQ(NumberOf(Submission()), 2);
}

TEST_F(Versions, ThatAreDraftsAreNotSent) {
  EXPECT_EQ(NumberOf(Draft()), 2);
  RequestContext sending = From("ada", "TestCallService.SendVersion");
  EXPECT_EQ(ReasonOf(SendVersion(application_, sending, kPattern, kCall, 2).status()),
            "VERSION_IS_DRAFT");
  RequestContext calling = From("ada", "TestCallService.CreateTestCall");
  testcalls::CallSettings settings;
  settings.title = "Summer";
  settings.sizes = {{"one size", 2, 1}};
  settings.deadline = absl::CivilDay(2026, 3, 1);
  EXPECT_EQ(ReasonOf(CreateTestCall(application_, calling, kPattern, 2, settings).status()),
            "VERSION_IS_DRAFT");
  EXPECT_EQ(Count("test_call"), "1");
  EXPECT_EQ(Execute("select version_number from test_call"), "1");
}

TEST_F(Versions, AreSentOnceInARow) {
  EXPECT_EQ(NumberOf(Submission()), 2);
  RequestContext sending = From("ada", "TestCallService.SendVersion");
  const auto sent = SendVersion(application_, sending, kPattern, kCall, 2);
  ASSERT_TRUE(sent.ok()) << sent.status();
  EXPECT_EQ(sent->call.row.version_number, 2);
  ASSERT_EQ(sent->seats.size(), 1u);
  EXPECT_EQ(sent->seats[0].seat.id, kSeat);
  RequestContext again = From("ada", "TestCallService.SendVersion");
  EXPECT_EQ(ReasonOf(SendVersion(application_, again, kPattern, kCall, 2).status()),
            "VERSION_SENT");
}

TEST_F(Versions, AreReadByATesterOnceTheyWereSent) {
  EXPECT_EQ(NumberOf(Submission()), 2);
  const auto read = [this] {
    RequestContext reading = From("tea", "PatternService.GetVersion");
    return GetVersion(application_, reading, kPattern, 2).status();
  };
  EXPECT_EQ(read().code(), absl::StatusCode::kNotFound);
  RequestContext sending = From("ada", "TestCallService.SendVersion");
  ASSERT_TRUE(SendVersion(application_, sending, kPattern, kCall, 2).ok());
  EXPECT_TRUE(read().ok());
}

}  // namespace
}  // namespace rowproof::usecases
