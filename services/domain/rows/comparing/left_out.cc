#include "services/domain/rows/comparing/left_out.h"

#include <algorithm>
#include <array>
#include <optional>

#include "services/domain/chart/technique.h"
#include "services/domain/rows/index.h"

namespace rowproof::rows {
namespace {

// What the labels that a maker is certain of show so far. Labels are the chart's: if the text gives
// another, that is a separate fault.
class LabelPattern {
 public:
  LabelPattern() { label_.fill({}); }

  void Add(int place, int label) {
    ++known_;
    for (int turns = 1; turns <= kLongestLabelPattern; ++turns) {
      std::optional<int>& known = label_[Index(turns)][Index(place % turns)];
      if (known.has_value() && *known != label) broken_[Index(turns)] = true;
      known = label;
    }
  }

  // What the shortest pattern that fits so far continues with; none: nothing is certain.
  std::optional<int> Next(int place) const {
    for (int turns = 1; turns <= kLongestLabelPattern; ++turns) {
      const auto& labels = label_[Index(turns)];
      if (broken_[Index(turns)]) continue;
      // One label again and again is only a beginning, and what a longer pattern is shows when it
      // comes again.
      if (turns == 1 || (turns > 2 && known_ < 2 * turns)) return std::nullopt;
      const bool whole = std::all_of(labels.begin(), labels.begin() + turns,
                                     [](const auto& label) { return label.has_value(); });
      return whole ? labels[Index(place % turns)] : std::nullopt;
    }
    return std::nullopt;
  }

 private:
  int known_ = 0;
  std::array<bool, kLongestLabelPattern + 1> broken_{};
  std::array<std::array<std::optional<int>, kLongestLabelPattern>, kLongestLabelPattern + 1> label_;
};

class LeftOut {
 public:
  LeftOut(const TextDocument& document, const ChartRows& chart, SizeComparison& comparison)
      : document_(document), chart_(chart), comparison_(comparison) {}

  void AddSides() {
    if (chart_.design().form == chart::Form::kTube) return;
    const auto right_side = [&](int worked) {
      return chart_.kind(worked).side == chart::Side::kRightSide;
    };
    const bool constant =
        IsConstant(&RowStanding::side, [&](int worked) { return SideOf(worked); });
    LabelPattern pattern;
    bool before = false;  // the side of the row before is certain
    for (int worked = 1; worked <= chart_.count(); ++worked) {
      const RowStanding& standing = Standing(worked);
      if (standing.line < 0) {
        before = false;
        continue;
      }
      const int side = SideOf(worked);
      const bool turns = worked > 1 && right_side(worked) != right_side(worked - 1);
      const bool told =
          before && (turns ? Says(worked, RowMark::kTurn) : Says(worked, RowMark::kNoTurn));
      before =
          IsStated(standing, standing.side) || constant || told || pattern.Next(worked) == side;
      before ? pattern.Add(worked, side) : Add(worked, ComparisonCode::kSideLeftOut);
    }
  }

  void AddColours() {
    const bool skips = chart::FactsOf(chart_.design().technique).skips;
    const bool constant =
        IsConstant(&RowStanding::colour, [&](int worked) { return ColourOf(worked); });
    LabelPattern pattern;
    bool before = false;
    for (int worked = 1; worked <= chart_.count(); ++worked) {
      const RowStanding& standing = Standing(worked);
      if (standing.line < 0) {
        before = false;
        continue;
      }
      const bool follows = skips && worked % 2 == 0 && before;
      const int place = skips ? (worked + 1) / 2 : worked;
      const int colour = ColourOf(worked);
      before = IsStated(standing, standing.colour) || constant || follows ||
               pattern.Next(place) == colour;
      if (!before) {
        Add(worked, ComparisonCode::kColourLeftOut);
      } else if (!follows) {
        pattern.Add(place, colour);
      }
    }
  }

 private:
  const RowStanding& Standing(int worked) const { return comparison_.rows[Index(worked - 1)]; }
  int SideOf(int worked) const { return static_cast<int>(chart_.kind(worked).side); }
  int ColourOf(int worked) const { return static_cast<int>(chart_.kind(worked).colour); }

  static bool IsStated(const RowStanding& standing, int label) {
    return label >= 0 || standing.agreement == Agreement::kNotRead;
  }

  // Whether the chart has one label, and some row of the text names it.
  template <typename LabelOf>
  bool IsConstant(int RowStanding::*stated, const LabelOf& label_of) const {
    bool named = false;
    for (int worked = 1; worked <= chart_.count(); ++worked) {
      if (label_of(worked) != label_of(1)) return false;
      named |= Standing(worked).*stated == label_of(1);
    }
    return named;
  }

  // "turn" is at the end of a row or at the start of the next.
  bool Says(int worked, RowMark mark) const {
    const int line = Standing(worked).line;
    const int below = worked > 1 ? Standing(worked - 1).line : -1;
    return document_.rows[Index(line)].has(mark) ||
           (below >= 0 && document_.rows[Index(below)].has(mark));
  }

  void Add(int worked, ComparisonCode code) {
    RowFault fault;
    fault.code = code;
    fault.severity = chart::Severity::kNote;
    fault.worked = worked;
    fault.number = chart_.number(worked);
    fault.line = Standing(worked).line;
    fault.source = fault.line;
    fault.at = document_.rows[Index(fault.line)].at;
    const RowKind& kind = chart_.kind(worked);
    fault.chart_says = code == ComparisonCode::kSideLeftOut
                           ? chart::Name(kind.side)
                           : std::string("colour ") + chart::Name(kind.colour);
    comparison_.faults.push_back(std::move(fault));
  }

  const TextDocument& document_;
  const ChartRows& chart_;
  SizeComparison& comparison_;
};

}  // namespace

void AddLeftOutLabels(const TextDocument& document, const ChartRows& chart,
                      SizeComparison& comparison) {
  LeftOut left_out(document, chart, comparison);
  left_out.AddSides();
  left_out.AddColours();
}

}  // namespace rowproof::rows
