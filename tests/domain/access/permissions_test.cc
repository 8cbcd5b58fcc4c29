// Who is let in where: each group of callers against each standing.
#include "services/domain/access/permissions.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <string>

#include "services/domain/errors.h"

namespace rowproof::access {
namespace {

enum Who {
  kNobody,
  kStranger,
  kOtherDesigner,
  kDesigner,
  kEditor,
  kTester,
  kTesterElsewhere,
  kEnded
};

Standing StandingOf(Who who) {
  Standing standing;
  if (who == kNobody) return standing;
  standing.account.value = "a1";
  standing.creates_patterns = who == kOtherDesigner || who == kDesigner;
  standing.designs_pattern = who == kDesigner;
  standing.edits_pattern = who == kEditor;
  standing.tests_pattern = who == kTester || who == kTesterElsewhere;
  if (who == kTester || who == kEnded) standing.seat.value = "s1";
  standing.seat_ended = who == kEnded;
  return standing;
}

// The outcome for kNobody ... kEnded: o let in, u UNAUTHENTICATED, n NOT_FOUND,
// p PERMISSION_DENIED. "Elsewhere": a seat in another call of the same pattern.
struct Expected {
  Callers callers;
  bool needs_call;
  const char* outcomes;
};

constexpr Expected kExpected[] = {
    {Callers::kAnyone, false, "oooooooo"},         {Callers::kInvited, false, "oooooooo"},
    {Callers::kSignedIn, false, "uooooooo"},       {Callers::kOwner, false, "uooooooo"},
    {Callers::kPatternMakers, false, "upoopppp"},  {Callers::kPatternDesigner, false, "unnopppn"},
    {Callers::kPatternDesigner, true, "unnoppnp"}, {Callers::kPatternReaders, false, "unnooppn"},
    {Callers::kPatternReaders, true, "unnoopnp"},  {Callers::kPatternPeople, false, "unnoooon"},
    {Callers::kCallPeople, true, "unnooonp"},      {Callers::kCallPeopleOrEnded, true, "unnooono"},
    {Callers::kCallTesters, true, "unnpponp"},     {Callers::kSeatHolder, true, "unnppono"},
    {Callers::kCallSeats, true, "unnoponp"},
};

char OutcomeOf(const absl::Status& status) {
  if (status.ok()) return 'o';
  if (status.code() == absl::StatusCode::kUnauthenticated) return 'u';
  if (status.code() == absl::StatusCode::kNotFound) return 'n';
  if (status.code() == absl::StatusCode::kPermissionDenied) return 'p';
  return '?';
}

TEST(Permissions, LetEachStandingInWhereItsGroupSays) {
  for (const MethodRule& rule : MethodRules()) {
    const auto* expected =
        std::find_if(std::begin(kExpected), std::end(kExpected), [&](const Expected& e) {
          return e.callers == rule.callers && e.needs_call == rule.needs_call;
        });
    ASSERT_NE(expected, std::end(kExpected)) << rule.method;
    std::string met;
    for (int who = kNobody; who <= kEnded; ++who) {
      met += OutcomeOf(
          Admit(rule.method, StandingOf(static_cast<Who>(who)), "pattern", "patterns/p1"));
    }
    EXPECT_EQ(met, expected->outcomes) << rule.method;
  }
}

TEST(Permissions, HaveAMethodForEveryGroup) {
  std::set<Callers> groups;
  for (const MethodRule& rule : MethodRules()) groups.insert(rule.callers);
  EXPECT_EQ(groups.size(), static_cast<size_t>(Callers::kCallSeats) + 1);
}

TEST(Permissions, SayTheSameToAStrangerAsOfAPatternThatIsNot) {
  const absl::Status stranger =
      Admit("PatternService.GetPattern", StandingOf(kStranger), "pattern", "patterns/p1");
  EXPECT_EQ(stranger, NotFound("pattern", "patterns/p1"));
}

TEST(Permissions, SayWhoMay) {
  const absl::Status refused =
      Admit("PatternService.UpdatePattern", StandingOf(kEditor), "pattern", "patterns/p1");
  EXPECT_NE(refused.message().find("Only the pattern's designer may use "), std::string::npos)
      << refused;
}

TEST(PermissionsDeathTest, TakeAMethodWithoutARuleForABug) {
  EXPECT_DEATH(static_cast<void>(Admit("PatternService.None", StandingOf(kDesigner), "", "")), "");
}

}  // namespace
}  // namespace rowproof::access
