#include "services/domain/patterns/version_content.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "services/domain/errors.h"
#include "tests/domain/patterns/sample_content.h"

namespace rowproof::patterns {
namespace {

// The field that Validate names; empty: it accepts the content.
std::string FieldRefused(const VersionContent& content) {
  const absl::Status status = Validate(content);
  if (status.ok()) return "";
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  const auto fields = DetailOf(status).fields;
  return fields.empty() ? "?" : fields[0].field;
}

template <typename Change>
std::string FieldRefusedAfter(const Change& change) {
  VersionContent content = SmallVersion();
  change(content);
  return FieldRefused(content);
}

TEST(VersionContent, IsAcceptedWithAllItsParts) {
  EXPECT_EQ(FieldRefused(SmallVersion()), "");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.designer_text = "Row 1 (RS, A): sc 5.\n\tRow 2"; }),
            "");
}

TEST(VersionContent, NeedsATitleInOneLineWithinItsLimit) {
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.title.clear(); }), "title");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.title = std::string(200, 'a'); }), "");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.title = std::string(201, 'a'); }), "title");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.title = "two\nlines"; }), "title");
}

TEST(VersionContent, RefusesTextsByTheirField) {
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.introduction = std::string("a\0b", 3); }),
            "introduction");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.notes = "bell\x07"; }), "notes");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.finishing = "\xc3"; }), "finishing");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.level = "easy\n"; }), "level");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.designer_text = "a\r\nb"; }), "designer_text");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.introduction = std::string(20'001, 'a'); }),
            "introduction");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.designer_text = std::string(1'000'001, 'a'); }),
            "designer_text");
}

TEST(VersionContent, LeavesTermsToATextOnlyWhereThereIsOne) {
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.designer_text_terms.reset(); }),
            "designer_text_terms");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) {
              c.designer_text = "Terms: UK.";
              c.designer_text_terms.reset();
            }),
            "");
}

TEST(VersionContent, RefusesMoreLinesThanCanBeCompared) {
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.designer_text = std::string(9'999, '\n'); }), "");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.designer_text = std::string(10'000, '\n'); }),
            "designer_text");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.notes = std::string(10'000, '\n'); }), "notes");
}

TEST(VersionContent, NamesTheFieldOfDesignAndMaterials) {
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.design.sizes[1].row_repeats = 2; }),
            "design.sizes[1].row_repeat_count");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.design.sizes[1].name = "M\x01"; }),
            "design.sizes[1].name");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.materials.gauge.stitches_per_decimetre = NAN; }),
            "materials.gauge.stitches_per_decimetre");
  EXPECT_EQ(FieldRefusedAfter([](auto& c) { c.materials.yarn_b.fibre = "\xff"; }),
            "materials.yarns[B].fibre");
}

}  // namespace
}  // namespace rowproof::patterns
