// Any bytes as a design: what Validate lets pass is checked, mended and laid out, and what must
// hold of the answers is held. The first bytes choose the settings, the rest are cells.
#include <cstddef>
#include <cstdint>
#include <string>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/expand.h"
#include "services/domain/chart/repair/repair.h"
#include "services/domain/chart/repeats/repeat_finder.h"
#include "services/domain/chart/technique.h"
#include "services/domain/check.h"

namespace rowproof::chart {
namespace {

class Bytes {
 public:
  Bytes(const uint8_t* data, size_t size) : data_(data), size_(size) {}
  int Next() { return at_ < size_ ? data_[at_++] : 0; }

 private:
  const uint8_t* data_;
  size_t size_;
  size_t at_ = 0;
};

Design DesignFrom(Bytes& bytes) {
  Design design;
  const int kinds = bytes.Next();
  design.facing = static_cast<Facing>(kinds % 3);
  design.ends = static_cast<Ends>(kinds / 3 % 3);
  design.form = kinds / 9 % 4 == 3 ? Form::kTube : Form::kFlat;
  design.convention = kinds / 36 % 2 == 0 ? Convention::kPicture : Convention::kWorking;
  const int parts = bytes.Next();
  // Up to 40 rows and 255 stitches: several words, and no more work than a fuzzer's step may cost.
  design.cells = Grid(1 + bytes.Next() % 40, 1 + bytes.Next() % 255);
  if ((parts & 1) != 0) design.row_band = Band{bytes.Next(), bytes.Next()};
  if ((parts & 2) != 0) design.stitch_band = Band{bytes.Next(), bytes.Next()};
  if ((parts & 4) != 0) {
    for (int row = 1; row <= design.cells.rows(); ++row) {
      design.row_colours.push_back(bytes.Next() % 2 == 0 ? Colour::kA : Colour::kB);
    }
  }
  design.sizes.clear();
  for (int i = 0; i < 1 + parts / 8 % 4; ++i) {
    design.sizes.push_back({std::to_string(i), bytes.Next() % 16, bytes.Next() % 16});
  }
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int stitch = 1; stitch <= design.cells.stitches(); stitch += 8) {
      const int eight = bytes.Next();
      for (int bit = 0; bit < 8 && stitch + bit <= design.cells.stitches(); ++bit) {
        design.cells.set(row, stitch + bit, (eight >> bit & 1) != 0);
      }
    }
  }
  return design;
}

void HoldFindings(const Design& design, const CheckResult& result) {
  ROWPROOF_CHECK(result.findings.size() <= static_cast<size_t>(kMostFindings));
  ROWPROOF_CHECK(static_cast<int64_t>(result.findings.size()) <=
                 result.error_count + result.warning_count + result.note_count);
  for (const Finding& finding : result.findings) {
    ROWPROOF_CHECK(finding.row >= 0 && finding.row <= design.cells.rows());
    ROWPROOF_CHECK(finding.stitch >= 0 && finding.stitch <= design.cells.stitches());
    ROWPROOF_CHECK(finding.last_stitch >= 0 && finding.last_stitch <= design.cells.stitches());
    ROWPROOF_CHECK(finding.size >= 0 && finding.size_count >= 1);
    ROWPROOF_CHECK(static_cast<size_t>(finding.size + finding.size_count) <= design.sizes.size());
    ROWPROOF_CHECK(!Sentence(finding, design).empty());
  }
}

void HoldRepair(const Design& design, const CheckResult& result) {
  const auto repair = FindRepair(design);
  if (!repair.ok()) {
    ROWPROOF_CHECK(!result.workable());
    return;
  }
  ROWPROOF_CHECK((repair->edit_count == 0) == result.workable());
  Design mended = design;
  for (const Edit& edit : repair->edits) mended.cells.set(edit.row, edit.stitch, edit.value);
  ROWPROOF_CHECK(mended.cells == repair->repaired);
  ROWPROOF_CHECK(Check(mended).workable());
  for (const Alternative& alternative : repair->alternatives) {
    const Design other = WithAlternative(design, alternative);
    ROWPROOF_CHECK(Validate(other).ok());
    const auto left = FindRepair(other);
    ROWPROOF_CHECK(left.ok() && left->edit_count == alternative.edits_left);
  }
}

// Symmetries, locks and a limit on runs as one byte says.
RepairOptions OptionsFrom(const Design& design, int byte) {
  RepairOptions options;
  options.left_right = (byte & 1) != 0;
  options.top_to_bottom = (byte & 2) != 0;
  options.half_turn = (byte & 4) != 0;
  options.longest_run = byte >> 3 & 3;
  options.most_steps = 100'000;
  if ((byte & 32) != 0) {
    options.locked = Grid(design.cells.rows(), design.cells.stitches());
    for (int row = 1; row <= design.cells.rows(); ++row) {
      for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
        options.locked.set(row, stitch, (row * 7 + stitch * 3 + byte) % 11 == 0);
      }
    }
  }
  return options;
}

void HoldRepairWithOptions(const Design& design, const RepairOptions& options) {
  const auto repair = FindRepair(design, options);
  if (!repair.ok()) return;
  ROWPROOF_CHECK(repair->lower_bound <= repair->edit_count);
  ROWPROOF_CHECK(repair->optimal == (repair->lower_bound == repair->edit_count));
  ROWPROOF_CHECK(repair->optimal || options.longest_run > 0);
  Design mended = design;
  for (const Edit& edit : repair->edits) {
    ROWPROOF_CHECK(options.locked.empty() || !options.locked.at(edit.row, edit.stitch));
    Apply(edit, mended);
  }
  ROWPROOF_CHECK(mended.cells == repair->repaired && Check(mended).workable());
  // What is mended needs no mending.
  const auto again = FindRepair(mended, options);
  ROWPROOF_CHECK(again.ok() && again->edit_count == 0);
}

void HoldRepeats(Design drawing) {
  drawing.row_band.reset();
  drawing.stitch_band.reset();
  drawing.sizes = {Size{"one size", 1, 1}};
  const auto repeats = FindRepeats(drawing, {.most_answers = 3});
  ROWPROOF_CHECK(repeats.ok());
  for (const RepeatAnswer& answer : repeats->answers) {
    ROWPROOF_CHECK(Validate(answer.reduced).ok());
    const ExpandedSize expanded = Expand(answer.reduced, 0);
    ROWPROOF_CHECK(expanded.drops == Expand(drawing, 0).drops);
  }
}

void HoldSizes(const Design& design) {
  for (int size = 0; size < static_cast<int>(design.sizes.size()); ++size) {
    const ExpandedSize expanded = Expand(design, size);
    ROWPROOF_CHECK(expanded.drops.rows() == ExpandedRows(design, size));
    ROWPROOF_CHECK(expanded.drops.stitches() == ExpandedStitches(design, size));
    ROWPROOF_CHECK((expanded.drops.row(1).back() & ~expanded.drops.last_word_mask()) == 0);
  }
}

}  // namespace
}  // namespace rowproof::chart

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace rowproof::chart;
  Bytes bytes(data, size);
  const Design design = DesignFrom(bytes);
  if (!Validate(design).ok()) return 0;
  const CheckResult result = Check(design);
  HoldFindings(design, result);
  HoldRepair(design, result);
  HoldRepairWithOptions(design, OptionsFrom(design, size == 0 ? 0 : data[size - 1]));
  HoldRepeats(design);
  HoldSizes(design);
  return 0;
}
