// Resource names: what is made is read back, and nothing else is read.
#include "services/rpc/names.h"

#include <gtest/gtest.h>

#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

// The name made of `parsed`, by the template's own collection.
struct Pair {
  const char* name_template;
  std::string name;
  std::string (*remake)(const ResourceName& parsed);
};

const std::vector<Pair>& Pairs() {
  static const std::vector<Pair> kPairs = {
      {"accounts/{account}", MakeAccountName({"a1"}),
       [](const ResourceName& n) { return MakeAccountName(n.account); }},
      {"accounts/{account}/tokens/{token}", MakeTokenName({"a1"}, {"t2"}),
       [](const ResourceName& n) { return MakeTokenName(n.account, n.token); }},
      {"patterns/{pattern}", MakePatternName({"p1"}),
       [](const ResourceName& n) { return MakePatternName(n.pattern); }},
      {"patterns/{pattern}/versions/{version}", MakeVersionName({"p1"}, 12),
       [](const ResourceName& n) { return MakeVersionName(n.pattern, n.version); }},
      {"patterns/{pattern}/editors/{editor}", MakeEditorName({"p1"}, {"e2"}),
       [](const ResourceName& n) { return MakeEditorName(n.pattern, n.editor); }},
      {"patterns/{pattern}/calls/{call}", MakeCallName({"p1"}, {"c2"}),
       [](const ResourceName& n) { return MakeCallName(n.pattern, n.call); }},
      {"patterns/{pattern}/calls/{call}/seats/{seat}", MakeSeatName({"p1"}, {"c2"}, {"s3"}),
       [](const ResourceName& n) { return MakeSeatName(n.pattern, n.call, n.seat); }},
      {"patterns/{pattern}/calls/{call}/seats/{seat}/reports/{report}",
       MakeReportName({"p1"}, {"c2"}, {"s3"}, 4),
       [](const ResourceName& n) { return MakeReportName(n.pattern, n.call, n.seat, n.report); }},
      {"patterns/{pattern}/calls/{call}/errata/{erratum}", MakeErratumName({"p1"}, {"c2"}, {"e3"}),
       [](const ResourceName& n) { return MakeErratumName(n.pattern, n.call, n.erratum); }},
      {"patterns/{pattern}/calls/{call}/reconciliations/{reconciliation}",
       MakeReconciliationName({"p1"}, {"c2"}, 999999999),
       [](const ResourceName& n) {
         return MakeReconciliationName(n.pattern, n.call, n.reconciliation);
       }},
      {"patterns/{pattern}/releases/{release}", MakeReleaseName({"p1"}, {"r2"}),
       [](const ResourceName& n) { return MakeReleaseName(n.pattern, n.release); }},
      {"calibrations/{calibration}", MakeCalibrationName({"k1"}),
       [](const ResourceName& n) { return MakeCalibrationName(n.calibration); }},
      {"calibrations/{calibration}/revisions/{revision}", MakeRevisionName({"k1"}, 7),
       [](const ResourceName& n) { return MakeRevisionName(n.calibration, n.revision); }},
  };
  return kPairs;
}

TEST(Names, AreReadBackAsTheyWereMade) {
  for (const Pair& pair : Pairs()) {
    const auto parsed = ParseName("name", pair.name, pair.name_template);
    ASSERT_TRUE(parsed.ok()) << parsed.status();
    EXPECT_EQ(pair.remake(*parsed), pair.name);
  }
}

TEST(Names, FitTheirOwnTemplateOnly) {
  for (const Pair& pair : Pairs()) {
    for (const Pair& other : Pairs()) {
      EXPECT_EQ(ParseName("name", pair.name, other.name_template).ok(), &pair == &other)
          << pair.name << " as " << other.name_template;
    }
  }
}

TEST(Names, AreRefusedWithTheFieldTheValueAndTheTemplate) {
  const auto parsed = ParseName("parent", "pattern/p1", "patterns/{pattern}");
  EXPECT_EQ(parsed.status().code(), absl::StatusCode::kInvalidArgument);
  const ErrorDetail detail = DetailOf(parsed.status());
  ASSERT_EQ(detail.fields.size(), 1u);
  EXPECT_EQ(detail.fields[0].field, "parent");
  EXPECT_NE(detail.fields[0].description.find("\"pattern/p1\""), std::string::npos);
  EXPECT_NE(detail.fields[0].description.find("patterns/{pattern}"), std::string::npos);
}

TEST(Names, AreMissedWhereThereAreNone) {
  const auto parsed = ParseName("name", "", "patterns/{pattern}");
  EXPECT_NE(parsed.status().message().find("missing"), std::string::npos);
}

TEST(Names, AreRefusedWithTooManyOrTooFewSegments) {
  for (const std::string name :
       {"patterns", "patterns/", "/patterns/p1", "patterns/p1/", "patterns//p1", "//", "/",
        "patterns/p1/versions", "Patterns/p1", " patterns/p1", "patterns/p1 ", "p1"}) {
    EXPECT_FALSE(ParseName("name", name, "patterns/{pattern}").ok()) << name;
  }
}

TEST(Names, AreRefusedWithIdentifiersThatNoServerMade) {
  const auto parse = [](const std::string& id) {
    return ParseName("name", "patterns/" + id, "patterns/{pattern}").ok();
  };
  EXPECT_TRUE(parse(std::string(40, 'z')));
  EXPECT_FALSE(parse(std::string(41, 'z')));
  for (const std::string id :
       {"A", "p_1", "p-1", "-", "{pattern}", "p\xC3\xA9", "%41", "p'", ".."}) {
    EXPECT_FALSE(parse(id)) << id;
  }
  EXPECT_FALSE(parse(std::string("p\0", 2)));
}

TEST(Names, AreRefusedWithNumbersInAnyOtherWayOfWriting) {
  const auto parse = [](const std::string& number) {
    return ParseName("name", "patterns/p1/versions/" + number,
                     "patterns/{pattern}/versions/{version}")
        .ok();
  };
  EXPECT_TRUE(parse("1"));
  EXPECT_TRUE(parse("999999999"));
  for (const std::string number : {"0", "01", "-1", "+1", "1.0", "1e3", "", " 1", "1000000000",
                                   "99999999999999999999", "0x1", "one", "latest"}) {
    EXPECT_FALSE(parse(number)) << number;
  }
}

TEST(Names, ThatAreHugeAreCutInTheRefusal) {
  const auto parsed = ParseName("name", std::string(1'000'000, '/'), "patterns/{pattern}");
  EXPECT_LT(parsed.status().message().size(), 300u);
  const std::string almost = "patterns/p1" + std::string(1'000'000, 'p');
  EXPECT_FALSE(ParseName("name", almost, "patterns/{pattern}").ok());
}

}  // namespace
}  // namespace rowproof::rpc
