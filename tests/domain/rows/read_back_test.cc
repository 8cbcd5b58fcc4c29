// Written rows, read back by two readers that share no code with the writer or with each other, say
// what the chart says, stitch by stitch and in every size.
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "services/domain/chart/expand.h"
#include "services/domain/rows/instructions.h"
#include "services/domain/rows/writer.h"
#include "tests/domain/rows/random_design.h"
#include "tests/domain/rows/text_reader.h"

namespace rowproof::rows {
namespace {

std::vector<std::string> LinesOf(const WrittenPattern& pattern) {
  std::vector<std::string> lines;
  for (const WrittenRow& row : pattern.rows) {
    if (!row.heading.empty()) lines.push_back(row.heading);
    lines.push_back(row.text);
  }
  return lines;
}

std::vector<std::string> SizeNames(const chart::Design& design) {
  std::vector<std::string> names;
  for (const chart::Size& size : design.sizes) names.push_back(size.name);
  return names;
}

std::map<int, ReadRow> FromChart(const chart::Design& design, int size, chart::Hand hand) {
  std::map<int, ReadRow> rows;
  for (const RowInstruction& row : Instructions(design, chart::Expand(design, size), hand)) {
    ReadRow read{chart::Name(row.side), chart::Name(row.colour), ""};
    for (const Element& element : row.elements)
      read.stitches += element.stitch == Stitch::kDrop ? 'x' : '.';
    rows[row.number] = read;
  }
  return rows;
}

WriterSettings RandomSettings(std::mt19937& random) {
  WriterSettings settings;
  settings.hand = static_cast<chart::Hand>(random() % 2);
  settings.nesting_depth = static_cast<int>(random() % 4);
  settings.every_row = random() % 4 == 0;
  // Now and then too little to search with: the text has to be exact all the same.
  if (random() % 6 == 0) settings.work_budget = 1 + static_cast<int64_t>(random() % 3000);
  return settings;
}

TEST(WrittenRows, SayWhatTheChartSaysInEverySize) {
  std::mt19937 random(410);
  int repeats = 0;
  int lists = 0;
  int headings = 0;
  int rounds = 0;
  for (int n = 0; n < 2500; ++n) {
    const chart::Design design = RandomDesign(random);
    const WriterSettings settings = RandomSettings(random);
    const auto pattern = WriteRows(design, settings);
    ASSERT_TRUE(pattern.ok()) << pattern.status();
    const std::vector<std::string> lines = LinesOf(*pattern);
    for (size_t size = 0; size < design.sizes.size(); ++size) {
      const int index = static_cast<int>(size);
      const ReadPattern read =
          ReadBack(lines, SizeNames(design), size, chart::ExpandedStitches(design, index));
      ASSERT_EQ(read.error, "") << "design " << n;
      ASSERT_TRUE(read.rows == FromChart(design, index, settings.hand))
          << "design " << n << ", size " << size;
    }
    for (const WrittenRow& row : pattern->rows) {
      repeats += row.kind == WrittenRow::Kind::kRepeat;
      lists += row.text.find(") times") != std::string::npos;
      headings += !row.heading.empty();
      rounds += row.text.rfind("Rnd", 0) == 0;
    }
  }
  // Every part of the grammar was met.
  EXPECT_GT(repeats, 1000);
  EXPECT_GT(lists, 1000);
  EXPECT_GT(headings, 100);
  EXPECT_GT(rounds, 100);
}

TEST(WrittenRows, GiveTheNumbersOfTheirTextAlsoAsValues) {
  std::mt19937 random(99);
  for (int n = 0; n < 500; ++n) {
    const chart::Design design = RandomDesign(random);
    const WriterSettings settings = RandomSettings(random);
    const auto pattern = WriteRows(design, settings);
    ASSERT_TRUE(pattern.ok());
    for (size_t size = 0; size < design.sizes.size(); ++size) {
      const chart::ExpandedSize expanded = chart::Expand(design, static_cast<int>(size));
      int next = design.first_row_number;
      for (const WrittenRow& row : pattern->rows) {
        ASSERT_EQ(row.numbers.size(), design.sizes.size());
        if (row.numbers[size] == kNotWorked) {
          EXPECT_EQ(row.stitch_counts[size], 0);
          continue;
        }
        // Lines follow each other without a gap in every size.
        ASSERT_EQ(row.numbers[size], next) << row.text;
        next = row.last_numbers[size] + 1;
        const RowInstruction first = InstructionOfRow(
            design, expanded, row.numbers[size] - design.first_row_number + 1, settings.hand);
        EXPECT_EQ(row.side, first.side);
        EXPECT_EQ(row.colour, first.colour);
        EXPECT_EQ(row.stitch_counts[size], CountOf(first.elements).stitches);
        if (row.kind == WrittenRow::Kind::kWorked) {
          EXPECT_EQ(row.numbers[size], row.last_numbers[size]);
          continue;
        }
        EXPECT_EQ((row.repeated_last[size] - row.repeated_first[size] + 1) * row.times[size],
                  row.last_numbers[size] - row.numbers[size] + 1);
      }
      EXPECT_EQ(next - design.first_row_number, expanded.drops.rows());
    }
  }
}

// A design as expand_rows.py reads it: it expands the chart by itself.
void Dump(const chart::Design& design, const WriterSettings& settings,
          const std::vector<std::string>& lines, const std::filesystem::path& path) {
  std::ofstream out(path);
  out << fmt::format("{} {} {} {} {}\n", chart::Name(design.convention), chart::Name(design.facing),
                     chart::Name(design.form),
                     settings.hand == chart::Hand::kRight ? "right" : "left",
                     design.first_row_number);
  const auto band = [&out](const std::optional<chart::Band>& wanted) {
    out << (wanted.has_value() ? fmt::format("{} {}\n", wanted->first, wanted->last) : "-\n");
  };
  band(design.stitch_band);
  band(design.row_band);
  for (const chart::Colour colour : design.row_colours) out << chart::Name(colour);
  out << "\n" << design.sizes.size() << "\n";
  for (const chart::Size& size : design.sizes) {
    out << fmt::format("{} {} {}\n", size.name, size.stitch_repeats, size.row_repeats);
  }
  out << design.cells.rows() << "\n";
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int s = 1; s <= design.cells.stitches(); ++s) out << (design.cells.at(row, s) ? 'x' : '.');
    out << "\n";
  }
  for (const std::string& line : lines) out << line << "\n";
}

struct Answer {
  int status = 0;
  std::string output;
};

Answer AnswerOf(const std::string& command) {
  Answer answer;
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return {-1, "popen failed"};
  char buffer[4096];
  for (size_t read = 0; (read = fread(buffer, 1, sizeof buffer, pipe)) > 0;) {
    answer.output.append(buffer, read);
  }
  answer.status = pclose(pipe);
  return answer;
}

class PythonReader : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (std::filesystem::temp_directory_path() / "rows-XXXXXX").string();
    ASSERT_NE(mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  Answer Check() const {
    return AnswerOf(fmt::format("/usr/bin/python3 -B {}/tests/domain/rows/expand_rows.py {} 2>&1",
                                ROWPROOF_SOURCE_DIR, folder_.string()));
  }

  std::filesystem::path folder_;
};

TEST_F(PythonReader, ExpandsTwoHundredPatternsToTheirCharts) {
  std::mt19937 random(2026);
  for (int n = 0; n < 200; ++n) {
    const chart::Design design = RandomDesign(random);
    const WriterSettings settings = RandomSettings(random);
    const auto pattern = WriteRows(design, settings);
    ASSERT_TRUE(pattern.ok());
    Dump(design, settings, LinesOf(*pattern), folder_ / fmt::format("{:03}.txt", n));
  }
  const Answer answer = Check();
  EXPECT_EQ(answer.status, 0) << answer.output;
  EXPECT_EQ(answer.output, "200 patterns agree with their charts\n");
}

TEST_F(PythonReader, SeesOneWrongStitch) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.sizes[0].name = "P";
  design.cells = chart::Grid(3, 9);
  design.cells.set(3, 4, true);
  auto pattern = WriteRows(design);
  ASSERT_TRUE(pattern.ok());
  std::vector<std::string> lines = LinesOf(*pattern);
  ASSERT_EQ(lines[2], "Row 3 (RS, A): sc 3, ssc, sc 5. (9 sts)");
  lines[2] = "Row 3 (RS, A): sc 4, ssc, sc 4. (9 sts)";
  Dump(design, {}, lines, folder_ / "wrong.txt");
  const Answer answer = Check();
  EXPECT_NE(answer.status, 0);
  EXPECT_NE(answer.output.find("row 3"), std::string::npos) << answer.output;
}

}  // namespace
}  // namespace rowproof::rows
