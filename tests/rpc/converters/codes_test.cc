// Codes of the domain and the API's enums: the same members under the same names.
#include <gtest/gtest.h>

#include <cctype>
#include <set>
#include <string>

#include "rowproof/v1/calibration.pb.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/chart_file.pb.h"
#include "rowproof/v1/conversion.pb.h"
#include "rowproof/v1/estimate.pb.h"
#include "rowproof/v1/repair.pb.h"
#include "rowproof/v1/text.pb.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/conversion/maker_changes.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/estimate/cautions.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/notes.h"
#include "services/domain/estimate/stitch_path.h"
#include "services/domain/estimate/uncertainty.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/sentences.h"
#include "services/domain/rows/reading/reader.h"
#include "services/images/import_report.h"
#include "services/rpc/converters/charts/yarn_role.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

// "FINDING_CODE_NO_ANCHOR" without what all members share: "no-anchor".
std::string CodeOf(const google::protobuf::EnumValueDescriptor& member) {
  const std::string& unspecified = member.type()->value(0)->name();
  const size_t prefix = unspecified.size() - std::string("UNSPECIFIED").size();
  std::string code = member.name().substr(prefix);
  for (char& c : code) c = c == '_' ? '-' : static_cast<char>(std::tolower(c));
  return code;
}

// `name_of` gives each of the domain's `count` codes its name; every member of the API's enum but
// the unspecified one has to be one of them, in the domain's order.
template <typename ProtoEnum, typename Enum, typename NameOf>
void ExpectSameMembers(size_t count, const NameOf& name_of) {
  const auto& type = *google::protobuf::GetEnumDescriptor<ProtoEnum>();
  ASSERT_EQ(type.value_count(), static_cast<int>(count) + 1) << type.full_name();
  for (size_t i = 0; i < count; ++i) {
    const auto code = static_cast<Enum>(i);
    const auto* member = type.FindValueByNumber(EnumTo<ProtoEnum>(code));
    ASSERT_NE(member, nullptr) << type.full_name() << " " << i;
    EXPECT_EQ(CodeOf(*member), name_of(code)) << type.full_name();
    EXPECT_EQ(
        (EnumFrom<Enum>("", EnumTo<ProtoEnum>(code), Enum{}, static_cast<int>(count), "").value()),
        code);
  }
}

// "plain PBM" of the domain is "plain-pbm".
std::string AsCode(std::string name) {
  for (char& c : name) c = c == ' ' ? '-' : static_cast<char>(std::tolower(c));
  return name;
}

TEST(Codes, AreThoseOfTheDomain) {
  ExpectSameMembers<v1::FindingCode, chart::FindingCode>(
      chart::kFindingCodes, [](auto code) { return std::string(chart::CodeName(code)); });
  ExpectSameMembers<v1::MakerAspect, chart::MakerAspect>(
      chart::kMakerAspects.size(), [](auto aspect) { return std::string(chart::Name(aspect)); });
  ExpectSameMembers<v1::PartKind, estimate::PartKind>(
      estimate::kPartKinds, [](auto part) { return std::string(estimate::Name(part)); });
  ExpectSameMembers<v1::CautionCode, estimate::CautionCode>(
      estimate::kCautionCodes, [](auto code) { return std::string(estimate::CodeName(code)); });
  ExpectSameMembers<v1::EstimateNoteCode, estimate::NoteCode>(
      estimate::kNoteCodes, [](auto code) { return std::string(estimate::CodeName(code)); });
  ExpectSameMembers<v1::UncertaintySource, estimate::UncertaintySource>(
      6, [](auto source) { return std::string(estimate::Name(source)); });
  ExpectSameMembers<v1::TextFindingCode, rows::TextFindingCode>(
      12, [](auto code) { return std::string(rows::CodeName(code)); });
  ExpectSameMembers<v1::ComparisonFindingCode, rows::ComparisonCode>(
      rows::kComparisonCodes, [](auto code) { return std::string(rows::CodeName(code)); });
  ExpectSameMembers<v1::StitchKind, estimate::StitchKind>(
      estimate::kStitchKinds, [](auto kind) { return AsCode(estimate::Name(kind)); });
  ExpectSameMembers<v1::ChartFileFormat, images::FileFormat>(
      9, [](auto format) { return AsCode(images::Name(format)); });
}

TEST(Codes, OfRepairsAndSeamsAreThoseOfTheDomain) {
  using Kind = chart::Alternative::Kind;
  EXPECT_EQ(EnumTo<v1::RepairAlternativeKind>(Kind::kPlainRowBelow),
            v1::REPAIR_ALTERNATIVE_KIND_PLAIN_ROW_BELOW);
  EXPECT_EQ(EnumTo<v1::RepairAlternativeKind>(Kind::kPlainRowAbove),
            v1::REPAIR_ALTERNATIVE_KIND_PLAIN_ROW_ABOVE);
  EXPECT_EQ(EnumTo<v1::RepairAlternativeKind>(Kind::kColoursExchanged),
            v1::REPAIR_ALTERNATIVE_KIND_COLOURS_EXCHANGED);
  EXPECT_EQ(EnumTo<v1::RepairAlternativeKind>(Kind::kRepeatMoved),
            v1::REPAIR_ALTERNATIVE_KIND_REPEAT_MOVED);
  EXPECT_EQ(static_cast<int>(chart::Seam::kRowRepeat), v1::SEAM_ROW_REPEAT);
  EXPECT_EQ(static_cast<int>(chart::Seam::kStitchRepeat), v1::SEAM_STITCH_REPEAT);
  EXPECT_EQ(static_cast<int>(chart::Seam::kJoin), v1::SEAM_JOIN);
}

TEST(Codes, OfYarnsAreThoseOfTheDomainInItsOrder) {
  std::set<v1::YarnRole> roles;
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    const v1::YarnRole role = RoleOf(colour);
    EXPECT_TRUE(roles.insert(role).second) << estimate::Name(colour);
    EXPECT_EQ(ColourOf("", role).value(), colour);
    EXPECT_EQ(CodeOf(*google::protobuf::GetEnumDescriptor<v1::YarnRole>()->FindValueByNumber(role)),
              AsCode(estimate::Name(colour)));
  }
  EXPECT_EQ(static_cast<int>(roles.size()) + 1, v1::YarnRole_descriptor()->value_count());
  EXPECT_FALSE(ColourOf("", v1::YARN_ROLE_UNSPECIFIED).ok());
  EXPECT_FALSE(ColourOf("", static_cast<v1::YarnRole>(10)).ok());
  EXPECT_EQ(ColourOrA("", v1::YARN_ROLE_UNSPECIFIED).value(), estimate::YarnColour::kA);
}

}  // namespace
}  // namespace rowproof::rpc
