// "1 rows differ" and "Yarn A: was Work loosely.; now Work tightly.." were once printed.
#include <gtest/gtest.h>

#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/difference_sentences.h"

namespace rowproof::patterns {
namespace {

TEST(OnePlaceMore, IsAPlace) {
  RowDifference row;
  row.change = RowChange::kChanged;
  row.old_row = row.new_row = 3;
  for (int stitch = 1; stitch <= 17; stitch += 2) row.new_stitches.push_back({stitch, stitch});
  row.old_stitches = row.new_stitches;
  const RowNumbers numbers;
  EXPECT_NE(Sentence(row, numbers).find("and 1 more place"), std::string::npos)
      << Sentence(row, numbers);
  row.new_stitches.push_back({19, 19});
  row.old_stitches = row.new_stitches;
  EXPECT_NE(Sentence(row, numbers).find("and 2 more places"), std::string::npos);
}

TEST(ASentence, EndsInOneFullStop) {
  const FieldDifference changed{"notes", "notes", "Work loosely.", "Work tightly."};
  EXPECT_EQ(Sentence(changed), "Notes: was Work loosely, now Work tightly.");
  EXPECT_EQ(Sentence(FieldDifference{"notes", "notes", "", "Work tightly."}),
            "Notes: now Work tightly (not stated before).");
  EXPECT_EQ(Sentence(FieldDifference{"notes", "notes", "Work loosely.", ""}),
            "Notes: no longer stated (was Work loosely).");
}

}  // namespace
}  // namespace rowproof::patterns
