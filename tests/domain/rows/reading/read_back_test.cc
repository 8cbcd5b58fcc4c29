// Written rows, read back by a reader that shares no code with the writer, say what the chart says,
// stitch by stitch and in every size.
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
#include "services/domain/rows/writing/writer.h"
#include "tests/domain/rows/random_design.h"
#include "tests/support/source_folder.h"

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
        EXPECT_EQ(row.chain_space_counts[size], CountOf(first.elements).chain_spaces);
        if (row.kind == WrittenRow::Kind::kWorked) {
          EXPECT_EQ(row.numbers[size], row.last_numbers[size]);
          continue;
        }
        EXPECT_EQ((row.repeated_last[size] - row.repeated_first[size] + 1) * row.times[size],
                  row.last_numbers[size] - row.numbers[size] + 1);
      }
      EXPECT_EQ(next - design.first_row_number, expanded.drops.rows() * chart::WorkedRows(design));
    }
  }
}

std::string Quoted(const std::vector<std::string>& texts) {
  std::string list = "[";
  for (const std::string& text : texts) {
    // None of them has a quotation mark or a backslash.
    list += (list.size() > 1 ? ", \"" : "\"") + text + '"';
  }
  return list + ']';
}

// A picture by the colours it shows, a working chart by its drops, row 1 and stitch 1 first.
std::vector<std::string> CellsOf(const chart::Design& design) {
  std::vector<std::string> cells;
  for (int row = 1; row <= design.cells.rows(); ++row) {
    std::string& line = cells.emplace_back();
    for (int s = 1; s <= design.cells.stitches(); ++s) {
      const bool set = design.cells.at(row, s);
      if (chart::NamesColours(design)) {
        line += chart::Name(design.picture_colours[chart::PictureCell(design, row, s)]);
      } else if (design.convention == chart::Convention::kPicture) {
        line += set ? 'B' : 'A';
      } else {
        line += set ? 'x' : '.';
      }
    }
  }
  return cells;
}

std::string ColourNames(const WriterSettings& settings) {
  std::string names;
  for (size_t i = 0; i < settings.colour_names.size(); ++i) {
    names += fmt::format("{}\"{}\": \"{}\"", i > 0 ? ", " : "",
                         chart::Name(static_cast<chart::Colour>(i)), settings.colour_names[i]);
  }
  return names;
}

// A design and its pattern as expand_rows.py reads them: it expands the chart by itself.
void Dump(const chart::Design& design, const WriterSettings& settings,
          const WrittenPattern& pattern, const std::filesystem::path& path) {
  std::ofstream out(path);
  const auto text = [&out](const char* name, const std::string& value) {
    out << fmt::format("\"{}\": \"{}\",\n", name, value);
  };
  const auto band = [&out](const char* name, const std::optional<chart::Band>& wanted) {
    out << (wanted.has_value()
                ? fmt::format("\"{}\": [{}, {}],\n", name, wanted->first, wanted->last)
                : fmt::format("\"{}\": null,\n", name));
  };
  out << "{\n";
  text("technique", chart::Name(design.technique));
  text("facing", chart::Name(design.facing));
  text("form", chart::Name(design.form));
  text("convention", chart::Name(design.convention));
  text("hand", settings.hand == chart::Hand::kRight ? "right" : "left");
  text("terms", settings.terms == chart::Terms::kUs ? "us" : "uk");
  text("foundation",
       design.foundation_colour.has_value() ? chart::Name(*design.foundation_colour) : "");
  std::string colours;
  for (const chart::Colour colour : design.row_colours) colours += chart::Name(colour);
  text("colours", colours);
  band("stitch_band", design.stitch_band);
  band("row_band", design.row_band);
  out << fmt::format("\"first\": {},\n\"names\": {{{}}},\n\"sizes\": [", design.first_row_number,
                     ColourNames(settings));
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    const chart::Size& size = design.sizes[i];
    out << fmt::format("{}[\"{}\", {}, {}]", i > 0 ? ", " : "", size.name, size.stitch_repeats,
                       size.row_repeats);
  }
  out << "],\n\"cells\": " << Quoted(CellsOf(design));
  out << ",\n\"lines\": " << Quoted(LinesOf(pattern));
  out << ",\n\"abbreviations\": " << Quoted(pattern.abbreviations);
  out << ",\n\"special_stitches\": " << Quoted(pattern.special_stitches);
  out << ",\n\"notes\": " << Quoted(pattern.notes) << "\n}\n";
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
    return AnswerOf(fmt::format("/usr/bin/python3 -B {} {} 2>&1",
                                InSources("tests/domain/rows/expand_rows.py"), folder_.string()));
  }

  std::filesystem::path folder_;
};

TEST_F(PythonReader, ExpandsSixHundredPatternsToTheirCharts) {
  std::mt19937 random(2026);
  std::string all;
  for (int n = 0; n < 600; ++n) {
    const chart::Design design = RandomDesign(random);
    const WriterSettings settings = RandomSettings(random);
    const auto pattern = WriteRows(design, settings);
    ASSERT_TRUE(pattern.ok()) << pattern.status();
    Dump(design, settings, *pattern, folder_ / fmt::format("{:03}.json", n));
    for (const std::string& line : LinesOf(*pattern)) all += line + "\n";
  }
  const Answer answer = Check();
  EXPECT_EQ(answer.status, 0) << answer.output;
  EXPECT_EQ(answer.output, "600 patterns agree with their charts\n");
  // Every part of the grammar was met.
  for (const char* part : {"Size Q:",
                           "Rnds ",
                           ": rep Row",
                           " twice.",
                           ") times.",
                           "(RS, E)",
                           "(WS, dark blue)",
                           " in 2nd ch from hook and in each ch across",
                           " in each ch around",
                           "ssc",
                           "sdc",
                           "mdc",
                           "mtr",
                           ", sk 1",
                           ", miss 2",
                           ", miss ch-sp",
                           " sts, 2 (",
                           " ch-sp)",
                           "] 0 (1",
                           "; rep from * ",
                           "* across",
                           "* around",
                           "* to last 1 st,",
                           "* to last 2 sts",
                           "* once more",
                           " more times",
                           "[[",
                           "(1 st)"}) {
    EXPECT_NE(all.find(part), std::string::npos) << part;
  }
}

TEST_F(PythonReader, SeesOneWrongStitch) {
  chart::Design design;
  design.convention = chart::Convention::kWorking;
  design.sizes[0].name = "P";
  design.cells = chart::Grid(3, 9);
  design.cells.set(3, 4, true);
  auto pattern = WriteRows(design);
  ASSERT_TRUE(pattern.ok());
  Dump(design, {}, *pattern, folder_ / "wrong.json");
  EXPECT_EQ(Check().status, 0);
  ASSERT_EQ(pattern->rows[2].text, "Row 3 (RS, A): sc 3, ssc, sc 5. (9 sts)");
  pattern->rows[2].text = "Row 3 (RS, A): sc 4, ssc, sc 4. (9 sts)";
  Dump(design, {}, *pattern, folder_ / "wrong.json");
  const Answer answer = Check();
  EXPECT_NE(answer.status, 0);
  EXPECT_NE(answer.output.find("row 3"), std::string::npos) << answer.output;
}

}  // namespace
}  // namespace rowproof::rows
