// What the writer writes, read by the reader, is the chart again: every stitch, colour, side and
// count, in every size. The way from the text to the chart shares nothing with the way there.
#include <random>
#include <string>

#include "gtest/gtest.h"
#include "services/domain/chart/expand.h"
#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/text_expansion.h"
#include "services/domain/rows/text_rows.h"
#include "services/domain/rows/writing/writer.h"
#include "tests/domain/chart/build_kind.h"
#include "tests/domain/rows/random_design.h"
#include "tests/domain/rows/workable_design.h"

namespace rowproof::rows {
namespace {

// The chart as the text has it, in one size.
struct ReadChart {
  chart::Grid drops;
  std::vector<chart::Colour> row_colours;
  std::string fault;
};

class ChartFromText {
 public:
  ChartFromText(const chart::Design& design, int size, chart::Hand hand)
      : design_(design), hand_(hand), stitches_(chart::ExpandedStitches(design, size)) {
    worked_ = chart::WorkedRows(design);
    chart_.drops = chart::Grid(chart::ExpandedRows(design, size), stitches_);
  }

  ReadChart Read(const TextDocument& document, int size) {
    const std::vector<PlacedRow> rows = RowsOfSize(document, size);
    if (static_cast<int>(rows.size()) != chart_.drops.rows() * worked_) Fault("number of rows");
    for (size_t i = 0; i < rows.size() && chart_.fault.empty(); ++i) {
      Take(document, rows[i], static_cast<int>(i) + 1, size);
    }
    return chart_;
  }

 private:
  void Fault(const std::string& what) {
    if (chart_.fault.empty()) chart_.fault = what;
  }

  void Take(const TextDocument& document, const PlacedRow& row, int worked, int size) {
    const std::string where = " in row " + std::to_string(row.number);
    if (row.number != worked + design_.first_row_number - 1) Fault("number" + where);
    if (row.worked < 0 || !row.side.has_value() || !row.colour.has_value()) {
      return Fault("side or colour" + where);
    }
    if (*row.side != chart::SideOfWorkedRow(design_, worked)) Fault("side" + where);
    const TextRow& text = document.rows[static_cast<size_t>(row.worked)];
    const bool ascending = chart::WorkedRowStartsAtStitchOne(design_, worked, hand_);
    std::vector<WorkedRun> met = below_;
    if (worked > 1 && ascending != below_ascending_) met = Reversed(met);
    const ExpandedText expanded = ExpandSteps(text.steps, size, {stitches_, met});
    if (expanded.fit != ExpandedText::Fit::kFits) Fault("a repeat that does not fit" + where);
    if (expanded.taken != stitches_) return Fault("stitches of the row below" + where);
    CheckCounts(text, expanded, size, where);
    Place(expanded.runs, worked, ascending, where);
    if ((worked - 1) % worked_ == 0) chart_.row_colours.push_back(*row.colour);
    if (chart_.row_colours.back() != *row.colour) Fault("colour" + where);
    below_ = expanded.runs;
    below_ascending_ = ascending;
  }

  void CheckCounts(const TextRow& text, const ExpandedText& expanded, int size,
                   const std::string& where) {
    if (text.stated.empty()) Fault("no stated count" + where);
    for (const StatedCount& stated : text.stated) {
      const int counted =
          stated.what == StatedCount::What::kStitches ? expanded.stitches : expanded.chain_spaces;
      if (stated.count.Of(size) != counted) Fault("stated count" + where);
    }
    if (expanded.chain_spaces > 0 && text.stated.size() != 2) Fault("no spaces counted" + where);
  }

  void Place(const std::vector<WorkedRun>& runs, int worked, bool ascending,
             const std::string& where) {
    const int row = (worked - 1) / worked_ + 1;
    std::vector<bool> skipped(static_cast<size_t>(stitches_), false);
    int position = 0;
    const auto next = [&] {
      const int stitch = ascending ? position + 1 : stitches_ - position;
      ++position;
      return stitch;
    };
    for (const WorkedRun& run : runs) {
      const bool space = run.kind == WorkedRun::Kind::kChainSpace;
      if (space && (worked_ == 1 || run.chains != run.skipped + 1)) Fault("chains" + where);
      for (int n = 0; n < (space ? run.count * run.skipped : run.count); ++n) {
        const int stitch = next();
        if (space) {
          skipped[static_cast<size_t>(stitch - 1)] = true;
        } else if (IsDropStitch(run.stitch, design_.technique)) {
          chart_.drops.set(row, stitch, true);
          if (worked % worked_ == 0 && worked_ == 2) Fault("a drop on the way back" + where);
        } else if (!IsPlainStitch(run.stitch)) {
          Fault("a stitch of no use" + where);
        }
      }
    }
    if (worked_ == 1) return;
    // Inset: the way back skips what the way there skipped; the next row fills it.
    if (worked % 2 == 0 && skipped != skipped_) Fault("other stitches skipped" + where);
    if (worked % 2 == 1 && worked > 1) {
      for (int s = 1; s <= stitches_; ++s) {
        if (chart_.drops.at(row, s) != skipped_[static_cast<size_t>(s - 1)]) {
          Fault("a skipped stitch that is not filled" + where);
        }
      }
    }
    skipped_ = std::move(skipped);
  }

  const chart::Design& design_;
  chart::Hand hand_;
  int stitches_;
  int worked_ = 1;
  ReadChart chart_;
  std::vector<WorkedRun> below_;
  bool below_ascending_ = true;
  std::vector<bool> skipped_;
};

ReaderSettings SettingsFor(const chart::Design& design, const WriterSettings& written) {
  ReaderSettings settings;
  for (const chart::Size& size : design.sizes) settings.sizes.push_back(size.name);
  for (size_t i = 0; i < written.colour_names.size(); ++i) {
    settings.colours.push_back({written.colour_names[i], static_cast<chart::Colour>(i)});
  }
  return settings;
}

// What the tests have met, so that none of it is left out by chance.
struct Met {
  int charts = 0;
  int sizes = 0;
  int inset = 0;
  int overlay = 0;
  int tubes = 0;
  int bands = 0;
};

void RoundTrip(std::mt19937& random, Met& met) {
  chart::Design design = RandomDesign(random);
  if (!MakeWorkable(design)) return;
  const WriterSettings written = RandomSettings(random);
  const auto pattern = WriteRows(design, written);
  ASSERT_TRUE(pattern.ok()) << pattern.status();
  ReaderSettings settings = SettingsFor(design, written);
  const bool whole = random() % 2 == 0;
  if (!whole) settings.terms = written.terms;
  const std::string text = whole ? WholePattern(*pattern) : RowsAlone(*pattern);
  const auto document = ReadRows(text, settings);
  ASSERT_TRUE(document.ok()) << document.status();
  ASSERT_TRUE(document->findings.empty()) << Sentence(document->findings.front()) << "\n" << text;
  ASSERT_EQ(document->terms, written.terms);
  for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
    const chart::ExpandedSize expanded = chart::Expand(design, size);
    const ReadChart read = ChartFromText(design, size, written.hand).Read(*document, size);
    ASSERT_EQ(read.fault, "") << "size " << size << "\n" << text;
    ASSERT_TRUE(read.drops == expanded.drops) << "size " << size << "\n" << text;
    ASSERT_EQ(read.row_colours, expanded.row_colours);
    if (whole) {
      ASSERT_TRUE(document->foundation.has_value()) << text;
      const int more = design.form == chart::Form::kTube ? 0 : 1;
      ASSERT_EQ(document->foundation->chains.Of(size), expanded.drops.stitches() + more) << text;
      ASSERT_EQ(document->foundation->colour,
                design.foundation_colour.value_or(chart::RowColour(design, 1)));
    }
    ++met.sizes;
  }
  ++met.charts;
  met.inset += design.technique == chart::Technique::kInset;
  met.overlay += design.technique == chart::Technique::kOverlay;
  met.tubes += design.form == chart::Form::kTube;
  met.bands += design.stitch_band.has_value() && design.row_band.has_value();
}

TEST(ReadRowsOfTheWriter, GivesTheChartBackInEverySize) {
  const int wanted = chart::kExhaustive ? 100'000 : 800;
  std::mt19937 random(2711);
  Met met;
  while (met.charts < wanted) {
    RoundTrip(random, met);
    if (HasFatalFailure()) FAIL() << "after " << met.charts << " charts";
  }
  EXPECT_GT(met.sizes, wanted * 2);
  EXPECT_GT(met.inset, wanted / 8);
  EXPECT_GT(met.overlay, wanted / 8);
  EXPECT_GT(met.tubes, wanted / 20);
  EXPECT_GT(met.bands, wanted / 8);
}

}  // namespace
}  // namespace rowproof::rows
