#include "services/domain/chart/repair/lock_clashes.h"

#include <string>
#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/row_windows.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::chart {
namespace {

class LockClashes {
 public:
  LockClashes(const RepairVariables& variables, const Stop& stop)
      : variables_(variables), stop_(stop), locked_(variables.design()) {}

  std::vector<UnmetCondition> Find() {
    PlainEverywhere();
    std::vector<Variable> list;
    for (const ColumnGroup& group : variables_.groups()) {
      variables_.Describe(group, list, stop_);
      if (!stop_.status().ok()) return {};
      for (size_t i = 0; i < list.size() && conditions_.size() < kMostClashes; ++i) {
        if (stop_.After(1)) return {};
        if (!list[i].locked_mark) continue;
        if (list[i].locked_plain || list[i].no_image) AddSymmetry(group, static_cast<int32_t>(i));
      }
      MarkLocked(group, list);
    }
    for (const Finding& finding : Check(locked_, {}, stop_).findings) {
      if (finding.severity != Severity::kError) continue;
      Add(CodeName(finding.code), "Locked cells clash: " + Sentence(finding, locked_));
    }
    AddRuns();
    return std::move(conditions_);
  }

 private:
  // Whether there is room for more.
  bool Add(const std::string& subject, const std::string& sentence) {
    if (conditions_.size() < kMostClashes) {
      conditions_.push_back({"LOCKS_CLASH", subject, sentence});
    }
    return conditions_.size() < kMostClashes;
  }

  void PlainEverywhere() {
    const bool flips = locked_.convention == Convention::kPicture && !NamesColours(locked_);
    for (int row = 1; row <= locked_.cells.rows(); ++row) {
      if (stop_.After(locked_.cells.stitches())) return;
      for (int stitch = 1; stitch <= locked_.cells.stitches(); ++stitch) {
        locked_.cells.set(row, stitch, flips && RowColour(locked_, row) == Colour::kB);
        if (NamesColours(locked_)) {
          locked_.picture_colours[PictureCell(locked_, row, stitch)] = RowColour(locked_, row);
        }
      }
    }
  }

  void MarkLocked(const ColumnGroup& group, const std::vector<Variable>& list) {
    const Design& design = variables_.design();
    const Grid& locks = variables_.options().locked;
    for (int row = 1; row <= design.cells.rows(); ++row) {
      if (stop_.After(group.stitches.size())) return;
      for (size_t place = 0; place < group.stitches.size(); ++place) {
        const int stitch = group.stitches[place];
        if (!list[static_cast<size_t>(group.variable(row, place))].locked_mark) continue;
        locked_.cells.set(row, stitch, !locked_.cells.at(row, stitch));
        if (!NamesColours(design)) continue;
        const size_t cell = PictureCell(design, row, stitch);
        const bool own = locks.at(row, stitch) && design.cells.at(row, stitch);
        locked_.picture_colours[cell] =
            own ? design.picture_colours[cell] : variables_.limits().MarkColour(row);
        // An image in a row without possible marks shows nothing.
        locked_.cells.set(row, stitch, locked_.picture_colours[cell] != RowColour(design, row));
      }
    }
  }

  void AddSymmetry(const ColumnGroup& group, int32_t variable) {
    const Design& design = variables_.design();
    const Grid& locks = variables_.options().locked;
    const Marks marks(design);
    std::string mark;
    std::string plain;
    for (int row = 1; row <= design.cells.rows(); ++row) {
      if (stop_.After(group.stitches.size())) return;
      for (size_t place = 0; place < group.stitches.size(); ++place) {
        const int stitch = group.stitches[place];
        if (group.variable(row, place) != variable || !locks.at(row, stitch)) continue;
        std::string& cell = marks.row(row).at(stitch) ? mark : plain;
        if (cell.empty()) cell = fmt::format("row {}, stitch {}", row, stitch);
      }
    }
    const char* name = design.convention == Convention::kPicture ? "off-colour cell" : "drop";
    Add("symmetry",
        plain.empty()
            ? fmt::format("The {} locked at {} cannot have a counterpart; unlock it.", name, mark)
            : fmt::format("The {} locked at {} clashes with its counterpart, {}, which is "
                          "locked as plain; unlock one of them.",
                          name, mark, plain));
  }

  void AddRuns() {
    const int limit = variables_.options().longest_run;
    if (limit == 0) return;
    const Marks marks(locked_);
    const char* code = CodeName(FactsOf(locked_.technique).runs.code);
    const auto lines = LinesOfStitches(locked_, limit + 1);
    for (int row = 1; row <= locked_.cells.rows(); ++row) {
      if (stop_.After(locked_.cells.stitches())) return;
      const MarkRow cells = marks.row(row);
      bool told = false;
      for (const auto& line : lines) {
        VisitWindows(
            line, limit + 1, [&](int stitch) { return cells.at(stitch); },
            [&](std::span<const int> window) {
              if (!std::exchange(told, true)) {
                Add(code, fmt::format("Row {}, stitches {} to {}: more than {} locked marks side "
                                      "by side; unlock one.",
                                      row, window.front(), window.back(), limit));
              }
              return true;
            });
      }
    }
  }

  const RepairVariables& variables_;
  const Stop& stop_;
  Design locked_;
  std::vector<UnmetCondition> conditions_;
};

}  // namespace

absl::Status RequireLocksHold(const RepairVariables& variables, const Stop& stop) {
  if (variables.options().locked.empty()) return absl::OkStatus();
  std::vector<UnmetCondition> clashes = LockClashes(variables, stop).Find();
  RETURN_IF_ERROR(stop.status());
  if (clashes.empty()) return absl::OkStatus();
  std::string sentence =
      fmt::format("No repair can keep the locked cells: {}", clashes.front().description);
  return UnmetConditions(sentence, std::move(clashes));
}

}  // namespace rowproof::chart
