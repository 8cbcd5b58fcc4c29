#include "services/drawing/flow.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <string>
#include <vector>

#include "gtest/gtest.h"
#include "services/drawing/table.h"

namespace rowproof::drawing {
namespace {

double Sum(const std::vector<double>& widths) {
  return std::accumulate(widths.begin(), widths.end(), 0.0);
}

TEST(ShareWidth, GivesEveryColumnWhatItWantsWhereThereIsRoom) {
  EXPECT_EQ(ShareWidth({10, 20, 30}, 100), (std::vector<double>{10, 20, 30}));
}

TEST(ShareWidth, LetsOnlyTheWideColumnsYield) {
  EXPECT_EQ(ShareWidth({10, 500, 300}, 110), (std::vector<double>{10, 50, 50}));
  EXPECT_EQ(ShareWidth({500, 40}, 110), (std::vector<double>{70, 40}));
}

TEST(ShareWidth, NeverExceedsTheWidth) {
  std::mt19937 random(3);
  for (int trial = 0; trial < 500; ++trial) {
    std::vector<double> natural(1 + random() % 8);
    for (double& width : natural) width = static_cast<double>(random() % 900);
    const std::vector<double> widths = ShareWidth(natural, 400);
    EXPECT_LE(Sum(widths), 400 + 1e-9);
    EXPECT_NEAR(Sum(widths), std::min(400.0, Sum(natural)), 1e-9);
    for (size_t i = 0; i < natural.size(); ++i) EXPECT_LE(widths[i], natural[i] + 1e-9);
  }
}

class FlowTest : public ::testing::Test {
 protected:
  FlowTest() : typesetter_(Typesetter::Open()), flow_(*typesetter_, ShapeOf(Paper::kA4)) {}
  absl::StatusOr<Typesetter> typesetter_;
  Flow flow_;
};

TEST_F(FlowTest, KeepsAHeadingWithWhatFollows) {
  flow_.Advance(flow_.room() - 50);
  flow_.Section("Notes", 60);
  EXPECT_EQ(flow_.page_count(), 2);
  ASSERT_EQ(flow_.outline().size(), 1u);
  EXPECT_EQ(flow_.outline()[0].page, 2);
}

TEST_F(FlowTest, LeavesNoSingleLineOfAParagraphAlone) {
  TextStyle style;
  const double line = style.size * style.line_height;
  const std::string ten_lines = "1\n2\n3\n4\n5\n6\n7\n8\n9\n10";
  // Room for one line: the paragraph starts on the next page.
  flow_.Advance(flow_.room() - 1.5 * line);
  flow_.Paragraph(ten_lines, style);
  EXPECT_EQ(flow_.page_count(), 2);
  EXPECT_NEAR(flow_.y(), flow_.shape().top_margin + 10 * line, 1e-6);
  // Room for nine of ten: two go to the next page, not one.
  flow_.Advance(flow_.room() - 9.5 * line);
  flow_.Paragraph(ten_lines, style);
  EXPECT_EQ(flow_.page_count(), 3);
  EXPECT_NEAR(flow_.y(), flow_.shape().top_margin + 2 * line, 1e-6);
  // A short paragraph is not torn apart.
  flow_.Advance(flow_.room() - 3.5 * line);
  flow_.Paragraph("1\n2\n3\n4", style);
  EXPECT_EQ(flow_.page_count(), 4);
  EXPECT_NEAR(flow_.y(), flow_.shape().top_margin + 4 * line, 1e-6);
}

TEST_F(FlowTest, StopsAtTheLimitOfPages) {
  for (int i = 0; i < kMostPages - 1; ++i) flow_.NewPage();
  EXPECT_FALSE(flow_.over_limit());
  flow_.NewPage();
  EXPECT_TRUE(flow_.over_limit());
  EXPECT_EQ(flow_.page_count(), kMostPages);
}

TEST_F(FlowTest, SetsALongParagraphInPiecesAsIfItWereOne) {
  std::string text;
  for (int i = 0; i < 3000; ++i) text += "ssc, ";
  TextStyle style;
  style.width = 300;
  style.hanging = 20;
  const Text set = typesetter_->Set(text, style);
  // Each line but the first is 280 wide and holds as many words as fit; the blank at its end hangs.
  const double blank =
      typesetter_->Set("a a", TextStyle{}).width() - typesetter_->Set("aa", TextStyle{}).width();
  const double word = typesetter_->Set("ssc,", TextStyle{}).width() + blank;
  EXPECT_NEAR(set.line_count(), 3000 / std::floor((280 + blank) / word), 1);
  EXPECT_LE(set.width(), 300.01);
}

TEST(Printable, ReplacesWhatCannotBePrinted) {
  EXPECT_EQ(Printable("a\tb\nc\x01"), "a b\nc ");
  EXPECT_EQ(Printable("\xff"), "\xef\xbf\xbd");
  EXPECT_EQ(Printable("\xef\xbf\xbe\xef\xb7\x90"), "\xef\xbf\xbd\xef\xbf\xbd");
  EXPECT_EQ(Printable(std::string("a\0b", 3)),
            "a\xef\xbf\xbd"
            "b");
  EXPECT_EQ(Printable("caf\xc3\xa9 \xf0\x9f\xa7\xb6"), "caf\xc3\xa9 \xf0\x9f\xa7\xb6");
}

}  // namespace
}  // namespace rowproof::drawing
