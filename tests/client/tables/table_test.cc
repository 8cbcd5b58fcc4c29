#include "services/client/tables/table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <sstream>
#include <string>

#include "rowproof/v1/test_call.pb.h"
#include "services/client/tables/chart.h"
#include "services/client/tables/estimate.h"
#include "services/client/tables/views.h"
#include "services/text/utf8.h"

namespace rowproof::client {
namespace {

size_t WidestLine(const std::string& text) {
  size_t widest = 0;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    widest = std::max(widest, text::CharacterCount(line));
  return widest;
}

std::string Words(std::minstd_rand& random, int most) {
  std::string text;
  for (int left = static_cast<int>(random() % static_cast<unsigned>(most + 1)); left > 0; --left) {
    text += random() % 6 == 0 ? " " : random() % 9 == 0 ? "\xc3\xa9" : "m";
  }
  return text;
}

TEST(Table, IsNeverWiderThanAPage) {
  std::minstd_rand random(20261125);
  for (int round = 0; round < 300; ++round) {
    Table table;
    const int columns = 1 + static_cast<int>(random() % 9);
    for (int i = 0; i < columns; ++i) {
      table.Column("Head", random() % 2 == 0 ? Table::Side::kLeft : Table::Side::kRight);
    }
    for (int row = 0; row < 5; ++row) {
      std::vector<std::string> cells;
      for (int i = 0; i < columns; ++i) cells.push_back(Words(random, 150));
      table.Row(cells);
    }
    ASSERT_LE(WidestLine(table.Text()), kPageColumns) << table.Text();
  }
}

TEST(Table, LosesNoLetterWhenItWraps) {
  Table table;
  table.Column("A").Column("B");
  table.Row({std::string(130, 'x'), std::string(260, 'y')});
  const std::string text = table.Text();
  EXPECT_EQ(std::count(text.begin(), text.end(), 'x'), 130);
  EXPECT_EQ(std::count(text.begin(), text.end(), 'y'), 260);
}

TEST(Table, SetsNumbersToTheRightAndClearsControlCharacters) {
  Table table;
  table.Column("Name").Column("Count", Table::Side::kRight);
  table.Row({"one\ntwo", "7"});
  table.Row({"b", "1234567"}, "caption");
  EXPECT_EQ(table.Text(),
            "Name       Count\n"
            "-------  -------\n"
            "one two        7\n"
            "caption\n"
            "b        1234567\n");
}

TEST(ChartTables, KeepToThePageWithLongSentences) {
  v1::CheckResult check;
  auto* finding = check.add_findings();
  finding->set_severity(v1::SEVERITY_ERROR);
  finding->set_row(4000);
  finding->set_stitch(3999);
  finding->set_last_stitch(4000);
  finding->set_seam(v1::SEAM_STITCH_REPEAT);
  finding->set_size(std::string(60, 's'));
  finding->set_sentence(std::string(80, 'w') + " and " + std::string(300, 'v'));
  check.set_error_count(1);
  EXPECT_LE(WidestLine(TextOf(check, Style())), kPageColumns);
  v1::SizeEstimate estimate;
  estimate.set_size(std::string(60, 's'));
  for (int role = v1::YARN_ROLE_A; role <= v1::YARN_ROLE_BORDER; ++role) {
    auto* yarn = estimate.add_yarns();
    yarn->set_role(static_cast<v1::YarnRole>(role));
    yarn->set_length_mm(99'999'999);
    yarn->mutable_length_interval_mm()->set_low(90'000'000);
    yarn->mutable_length_interval_mm()->set_high(110'000'000);
    yarn->set_published_length_m(120'000);
    yarn->set_published_length_yd(131'235);
    yarn->set_mass_g(48'000);
    yarn->set_ball_count(960);
    yarn->set_length_per_stitch_mm(-9'999'999);
    yarn->set_remaining_length_m(1234.5);
    for (const auto kind : {v1::PART_KIND_STITCHES, v1::PART_KIND_FOUNDATION}) {
      auto* part = yarn->add_parts();
      part->set_kind(kind);
      part->set_length_mm(49'999'999);
      part->set_share(0.5);
      auto* contribution = yarn->add_length_contributions();
      contribution->set_source(v1::UNCERTAINTY_SOURCE_YARN_DIAMETER);
      contribution->set_uncertainty(12'345'678);
    }
  }
  EXPECT_LE(WidestLine(TextOf(estimate, Style())), kPageColumns);
  EXPECT_LE(WidestLine(TextOf(estimate, Style{Units::kImperial, true})), kPageColumns);
}

TEST(Views, SayEnumsInWordsAndTimesInUtc) {
  EXPECT_EQ(Word(v1::SEAT_STATE_GIVEN_UP), "given-up");
  EXPECT_EQ(Word(v1::MATERIAL_CHOICE_FREE), "free");
  EXPECT_EQ(Word(v1::FINDING_CODE_DROP_OVER_DROP), "drop-over-drop");
  EXPECT_EQ(Word(v1::YARN_ROLE_A), "A");
  EXPECT_EQ(Word(v1::YARN_ROLE_BORDER), "border");
  google::protobuf::Timestamp time;
  EXPECT_EQ(TimeText(time), "-");
  time.set_seconds(1'000'000'000);  // 2001-09-09T01:46:40Z, a well-known instant (from memory)
  EXPECT_EQ(TimeText(time), "2001-09-09 01:46 UTC");
}

TEST(Views, SetLongNamesOnLinesOfTheirOwnUnbroken) {
  v1::Seat seat;
  seat.set_name("patterns/" + std::string(16, 'p') + "/testCalls/" + std::string(16, 'c') +
                "/seats/" + std::string(16, 's'));
  seat.set_size("wide");
  const std::vector<v1::Seat> seats{seat};
  EXPECT_EQ(ListOf(seats, {{"Name", "name"}, {"Size", "size"}}),
            "Size\n----\n" + seat.name() + "\nwide\n");
}

}  // namespace
}  // namespace rowproof::client
