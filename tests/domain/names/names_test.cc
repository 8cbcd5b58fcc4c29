// Resource names: what is printed is parsed again, and nothing else is.
#include "services/domain/names/names.h"

#include <gtest/gtest.h>

#include <tuple>

#include "services/domain/errors.h"

namespace rowproof {
namespace {

const auto& Names() {
  static const auto& names = *new std::tuple{
      std::pair{AccountName{{"a1"}}, "accounts/a1"},
      std::pair{TokenName{{"a1"}, {"t2"}}, "accounts/a1/tokens/t2"},
      std::pair{PatternName{{"p1"}}, "patterns/p1"},
      std::pair{VersionName{{"p1"}, 12}, "patterns/p1/versions/12"},
      std::pair{EditorName{{"p1"}, {"e2"}}, "patterns/p1/editors/e2"},
      std::pair{ReleaseName{{"p1"}, {"r2"}}, "patterns/p1/releases/r2"},
      std::pair{TestCallName{{"p1"}, {"c2"}}, "patterns/p1/testCalls/c2"},
      std::pair{SeatName{{"p1"}, {"c2"}, {"s3"}}, "patterns/p1/testCalls/c2/seats/s3"},
      std::pair{ReportName{{"p1"}, {"c2"}, {"s3"}, 4},
                "patterns/p1/testCalls/c2/seats/s3/reports/4"},
      std::pair{ErratumName{{"p1"}, {"c2"}, {"e3"}}, "patterns/p1/testCalls/c2/errata/e3"},
      std::pair{ReconciliationName{{"p1"}, {"c2"}, 999999999},
                "patterns/p1/testCalls/c2/reconciliations/999999999"},
      std::pair{SetAsideName{{"p1"}, {"c2"}, {"a3"}}, "patterns/p1/testCalls/c2/setAsides/a3"},
      std::pair{CalibrationName{{"k1"}}, "calibrations/k1"},
      std::pair{RevisionName{{"k1"}, 7}, "calibrations/k1/revisions/7"}};
  return names;
}

template <typename Check>
void ForEach(const Check& check) {
  std::apply([&](const auto&... pair) { (check(pair.first, std::string(pair.second)), ...); },
             Names());
}

TEST(Names, AreParsedAsTheyWerePrinted) {
  ForEach([]<typename Name>(const Name& name, const std::string& text) {
    EXPECT_EQ(ToString(name), text);
    const auto parsed = ParseName<Name>("name", text);
    ASSERT_TRUE(parsed.ok()) << parsed.status();
    EXPECT_EQ(*parsed, name);
  });
}

TEST(Names, FitTheirOwnTypeOnly) {
  ForEach([]<typename Name>(const Name&, const std::string& own) {
    ForEach([&own](const auto&, const std::string& text) {
      EXPECT_EQ(ParseName<Name>("name", text).ok(), text == own) << text << " as " << Name::kForm;
    });
  });
}

TEST(Names, SentOutWithTheFormerCollectionAreStillParsed) {
  const auto seat = ParseName<SeatName>("name", "patterns/p1/calls/c2/seats/s3");
  ASSERT_TRUE(seat.ok()) << seat.status();
  EXPECT_EQ(ToString(*seat), "patterns/p1/testCalls/c2/seats/s3");
  EXPECT_FALSE(ParseName<VersionName>("name", "patterns/p1/calls/1").ok());
  EXPECT_FALSE(ParseName<TestCallName>("name", "patterns/p1/testcalls/c2").ok());
}

TEST(Names, AreRefusedWithTheFieldTheTextAndTheForm) {
  const auto parsed = ParseName<PatternName>("parent", "pattern/p1");
  EXPECT_EQ(parsed.status().code(), absl::StatusCode::kInvalidArgument);
  const ErrorDetail detail = DetailOf(parsed.status());
  ASSERT_EQ(detail.fields.size(), 1u);
  EXPECT_EQ(detail.fields[0].field, "parent");
  EXPECT_NE(detail.fields[0].description.find("\"pattern/p1\""), std::string::npos);
  EXPECT_NE(detail.fields[0].description.find("patterns/{pattern}"), std::string::npos);
}

TEST(Names, AreMissingIfEmpty) {
  const auto parsed = ParseName<PatternName>("name", "");
  EXPECT_NE(parsed.status().message().find("missing"), std::string::npos);
}

TEST(Names, AreRefusedWithTooManyOrTooFewSegments) {
  for (const std::string name :
       {"patterns", "patterns/", "/patterns/p1", "patterns/p1/", "patterns//p1", "//", "/",
        "patterns/p1/versions", "Patterns/p1", " patterns/p1", "patterns/p1 ", "p1"}) {
    EXPECT_FALSE(ParseName<PatternName>("name", name).ok()) << name;
  }
}

TEST(Names, AreRefusedWithIdentifiersThatNoServerMade) {
  const auto parse = [](const std::string& id) {
    return ParseName<PatternName>("name", "patterns/" + id).ok();
  };
  EXPECT_TRUE(parse(std::string(40, 'z')));
  EXPECT_FALSE(parse(std::string(41, 'z')));
  for (const std::string id :
       {"A", "p_1", "p-1", "-", "{pattern}", "p\xC3\xA9", "%41", "p'", ".."}) {
    EXPECT_FALSE(parse(id)) << id;
  }
  EXPECT_FALSE(parse(std::string("p\0", 2)));
}

TEST(Names, AreRefusedWithNumbersInAnyOtherNotation) {
  const auto parse = [](const std::string& number) {
    return ParseName<VersionName>("name", "patterns/p1/versions/" + number).ok();
  };
  EXPECT_TRUE(parse("1"));
  EXPECT_TRUE(parse("999999999"));
  for (const std::string number : {"0", "01", "-1", "+1", "1.0", "1e3", "", " 1", "1000000000",
                                   "99999999999999999999", "0x1", "one", "latest"}) {
    EXPECT_FALSE(parse(number)) << number;
  }
}

TEST(Names, ThatAreHugeAreCutInTheRefusal) {
  const auto parsed = ParseName<PatternName>("name", std::string(1'000'000, '/'));
  EXPECT_LT(parsed.status().message().size(), 300u);
  const std::string almost = "patterns/p1" + std::string(1'000'000, 'p');
  EXPECT_FALSE(ParseName<PatternName>("name", almost).ok());
}

}  // namespace
}  // namespace rowproof
