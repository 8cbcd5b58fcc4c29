#include "tests/domain/chart/plain_rules.h"

#include <algorithm>
#include <set>

#include "tests/domain/chart/plain_piece.h"

namespace rowproof::chart {
namespace {

// Findings of one size.
class PlainChecker {
 public:
  PlainChecker(const Design& design, const PlainPiece& piece, int size,
               const CheckSettings& settings)
      : design_(design), piece_(piece), size_(size), settings_(settings) {}

  std::vector<Finding> Run() {
    for (int r = 1; r <= piece_.rows() + 1; ++r) {
      for (int s = 1; s <= piece_.stitches(); ++s) {
        if (piece_.Drop(r, s)) CheckDrop(r, s);
      }
    }
    if (!design_.picture_colours.empty()) CheckShownColours();
    CheckRuns();
    if (design_.form == Form::kFlat) {
      CheckEdge(1);
      if (piece_.stitches() > 1) CheckEdge(piece_.stitches());
    }
    CheckColours();
    CheckWhole();
    return findings_;
  }

 private:
  void Add(FindingCode code, Severity severity, int row, int stitch, int last, Seam seam) {
    findings_.push_back({code, severity, row, stitch, last, seam, size_, 1});
  }

  // "A drop in row r needs a worked stitch in row r-2 >= 1." Or, for row 2, a foundation in that
  // row's colour.
  bool HasAnchor(int r) const {
    if (r >= 3) return true;
    return r == 2 && piece_.rows() >= 2 && design_.foundation_colour &&
           *design_.foundation_colour == piece_.ColourAt(2);
  }

  void CheckDrop(int r, int s) {
    const int place = piece_.PlaceOf(r);
    const int row = piece_.RowAt(place);
    const int stitch = piece_.StitchAt(s);
    const auto add = [&](FindingCode code, Severity severity, bool drawn) {
      Add(code, severity, row, stitch, stitch, drawn ? Seam::kNone : Seam::kRowRepeat);
    };
    if (!HasAnchor(r)) add(FindingCode::kNoAnchor, Severity::kError, true);
    if (piece_.Drop(r - 1, s)) {
      add(FindingCode::kDropOverDrop, Severity::kError, piece_.RowAt(place - 1) == row - 1);
    }
    if (r > piece_.rows()) {
      add(FindingCode::kUncoveredTopRow, Severity::kError, true);
      return;
    }
    const bool on_drawn = r >= 2 && piece_.RowAt(r - 1) == piece_.RowAt(r) - 1;
    if (r >= 3 && piece_.ColourAt(r - 2) != piece_.ColourAt(r)) {
      add(FindingCode::kForeignAnchor, Severity::kWarning,
          on_drawn && piece_.RowAt(r - 2) == piece_.RowAt(r) - 2);
    }
    if (r >= 2 && piece_.ColourAt(r - 1) == piece_.ColourAt(r)) {
      add(FindingCode::kPointlessDrop, Severity::kWarning, on_drawn);
    }
  }

  // A cell that shows neither its own row's colour nor that of the row above.
  void CheckShownColours() {
    for (int r = 1; r < piece_.rows(); ++r) {
      for (int s = 1; s <= piece_.stitches(); ++s) {
        const Colour shown = piece_.Shown(r, s);
        if (shown == piece_.ColourAt(r) || shown == piece_.ColourAt(r + 1)) continue;
        const bool drawn = piece_.RowAt(r + 1) == piece_.RowAt(r) + 1;
        Add(FindingCode::kForeignColour, Severity::kError, piece_.RowAt(r), piece_.StitchAt(s),
            piece_.StitchAt(s), drawn ? Seam::kNone : Seam::kRowRepeat);
      }
    }
  }

  void CheckRuns() {
    switch (design_.technique) {
      case Technique::kSpike:
        if (design_.ends != Ends::kCarried) return;
        return CheckRunsOf(FindingCode::kLooseStrand, Severity::kWarning,
                           settings_.longest_carried_run);
      case Technique::kOverlay:
        return CheckRunsOf(FindingCode::kLooseFlap, Severity::kNote, settings_.longest_flap);
      case Technique::kInset:
        return CheckRunsOf(FindingCode::kLongSkip, Severity::kWarning, settings_.longest_skip);
    }
  }

  void CheckRunsOf(FindingCode code, Severity severity, int longest) {
    const int stitches = piece_.stitches();
    for (int r = 1; r <= piece_.rows(); ++r) {
      // A run is looked for from a stitch with a drop whose neighbour before it has none.
      const auto before = [&](int s) { return s > 1 ? s - 1 : tube() ? stitches : 0; };
      const auto after = [&](int s) { return s < stitches ? s + 1 : tube() ? 1 : 0; };
      const auto drop = [&](int s) { return s != 0 && piece_.Drop(r, s); };
      bool all = true;
      for (int s = 1; s <= stitches; ++s) all = all && drop(s);
      for (int s = 1; s <= stitches; ++s) {
        const bool starts = all ? s == 1 : drop(s) && !drop(before(s));
        if (!starts) continue;
        int length = 1;
        int end = s;
        for (; length < stitches && drop(after(end)); end = after(end)) ++length;
        if (length <= longest) continue;
        const int first = piece_.StitchAt(s);
        const int last = piece_.StitchAt(end);
        const Seam seam = end < s                      ? Seam::kJoin
                          : last - first + 1 > longest ? Seam::kNone
                                                       : Seam::kStitchRepeat;
        Add(code, severity, piece_.RowAt(piece_.PlaceOf(r)), first, last, seam);
      }
    }
  }

  bool tube() const { return design_.form == Form::kTube; }

  // The chart rows in which the column is not: plain, or drops in every row of `colour` from its
  // second on.
  std::vector<int> Uneven(int s, std::optional<Colour> colour) const {
    std::vector<int> rows;
    int met = 0;
    for (int r = 1; r <= piece_.rows(); ++r) {
      const bool own = colour && piece_.ColourAt(r) == *colour;
      if (own) ++met;
      const bool wanted = own && met >= 2;
      const int place = piece_.PlaceOf(r);
      if (place < 1 || piece_.Drop(r, s) == wanted) continue;
      const int row = piece_.RowAt(place);
      if (std::find(rows.begin(), rows.end(), row) == rows.end()) rows.push_back(row);
    }
    return rows;
  }

  void CheckEdge(int s) {
    std::vector<int> best = Uneven(s, std::nullopt);
    const bool spike = design_.technique == Technique::kSpike;
    if (spike) {
      for (int number = 0; number < 8; ++number) {
        const Colour colour = static_cast<Colour>(number);
        const auto first = piece_.colour.begin() + 1;
        if (std::find(first, piece_.colour.end(), colour) == piece_.colour.end()) continue;
        const std::vector<int> rows = Uneven(s, colour);
        if (rows.size() < best.size()) best = rows;
      }
    }
    const FindingCode code =
        design_.technique == Technique::kInset ? FindingCode::kEdgeSkip : FindingCode::kEdgeDrop;
    for (const int row : best) {
      Add(code, spike ? Severity::kWarning : Severity::kError, row, piece_.StitchAt(s),
          piece_.StitchAt(s), Seam::kNone);
    }
  }

  // "Spike carried, and spike paired with waiting yarns: exactly two colours, strictly
  // alternating."
  void CheckColours() {
    const bool spike = design_.technique == Technique::kSpike;
    const bool paired_waiting = design_.ends == Ends::kWaiting &&
                                design_.facing == Facing::kPaired && design_.form == Form::kFlat;
    const bool strict = spike && (design_.ends == Ends::kCarried || paired_waiting);
    std::set<Colour> colours;
    for (int row = 1; row <= static_cast<int>(design_.row_colours.size()); ++row) {
      const size_t before = colours.size();
      colours.insert(design_.row_colours[static_cast<size_t>(row - 1)]);
      if (strict && before == 2 && colours.size() == 3) {
        Add(FindingCode::kTooManyColours, Severity::kError, row, 0, 0, Seam::kNone);
      }
    }
    if (!strict && colours.size() > 2) return;
    for (int r = 2; r <= piece_.rows(); ++r) {
      if (piece_.ColourAt(r) != piece_.ColourAt(r - 1)) continue;
      Add(FindingCode::kColourOrder, strict ? Severity::kError : Severity::kWarning,
          piece_.RowAt(r), 0, 0,
          piece_.RowAt(r - 1) == piece_.RowAt(r) - 1 ? Seam::kNone : Seam::kRowRepeat);
    }
  }

  // What goes together, as a list: '+' fits, 'n' fits with a note, '-' does not.
  char EndsFit() const {
    const auto of = [this](const char* cut_carried_waiting) {
      return cut_carried_waiting[static_cast<size_t>(design_.ends)];
    };
    if (design_.form == Form::kTube) return of("n-+");
    if (design_.technique == Technique::kOverlay) return of("+--");
    if (design_.technique == Technique::kInset) return of("--+");
    if (design_.facing == Facing::kOneFace) return of("+--");
    if (design_.facing == Facing::kTwoFace) return of("++-");
    return of("n-+");
  }

  void CheckWhole() {
    if (EndsFit() == '-') {
      Add(FindingCode::kEndsDoNotFit, Severity::kError, 0, 0, 0, Seam::kNone);
    } else if (EndsFit() == 'n') {
      Add(FindingCode::kEndsCouldWait, Severity::kNote, 0, 0, 0, Seam::kNone);
    }
    if (!design_.row_band) return;
    const int first = design_.row_band->first;
    const int length = design_.row_band->last - first + 1;
    const bool turned = design_.technique == Technique::kSpike && design_.form == Form::kFlat;
    if (OddRepeat(design_)) {
      Add(FindingCode::kOddRowRepeat, Severity::kError, first, 0, 0, Seam::kNone);
    } else if (turned && ((design_.facing == Facing::kPaired && length % 4 != 0) ||
                          (design_.facing == Facing::kTwoFace && length % 2 != 0))) {
      Add(FindingCode::kFacingRepeat, Severity::kWarning, first, 0, 0, Seam::kNone);
    }
  }

  const Design& design_;
  const PlainPiece& piece_;
  int size_;
  const CheckSettings& settings_;
  std::vector<Finding> findings_;
};

bool Before(const Finding& one, const Finding& other) {
  if (one.severity != other.severity) return one.severity > other.severity;
  if (one.row != other.row) return one.row < other.row;
  if (one.stitch != other.stitch) return one.stitch < other.stitch;
  if (one.code != other.code) return one.code < other.code;
  return one.last_stitch < other.last_stitch;
}

bool SamePlace(const Finding& one, const Finding& other) {
  return !Before(one, other) && !Before(other, one);
}

// A finding that occurs inside the drawn chart has no seam; one at the join of a round and at a
// seam of its band has the join.
Seam Nearer(Seam one, Seam other) {
  for (const Seam seam : {Seam::kNone, Seam::kJoin}) {
    if (one == seam || other == seam) return seam;
  }
  return one;
}

// All findings, in order, each place once.
std::vector<Finding> AllFindings(const Design& design, const CheckSettings& settings) {
  std::vector<Finding> all;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    const PlainPiece piece = MakePlainPiece(design, design.sizes[i]);
    const auto found = PlainChecker(design, piece, static_cast<int>(i), settings).Run();
    all.insert(all.end(), found.begin(), found.end());
  }
  std::stable_sort(all.begin(), all.end(), Before);
  std::vector<Finding> merged;
  int last_size = -1;
  for (const Finding& finding : all) {
    if (merged.empty() || !SamePlace(merged.back(), finding)) {
      merged.push_back(finding);
    } else {
      if (finding.size != last_size) ++merged.back().size_count;
      merged.back().seam = Nearer(merged.back().seam, finding.seam);
    }
    last_size = finding.size;
  }
  return merged;
}

// The chart's stitches with an error of rules 1 to 4.
std::set<int> FaultyStitches(const std::vector<Finding>& findings) {
  std::set<int> stitches;
  for (const Finding& finding : findings) {
    if (finding.code == FindingCode::kNoAnchor || finding.code == FindingCode::kDropOverDrop ||
        finding.code == FindingCode::kUncoveredTopRow) {
      stitches.insert(finding.stitch);
    }
  }
  return stitches;
}

bool HasSetCell(const Design& design, int stitch) {
  for (int row = 1; row <= design.cells.rows(); ++row) {
    if (design.cells.at(row, stitch)) return true;
  }
  return false;
}

// Every cell's mark in the design as it is given.
bool Marked(const Design& design, int row, int stitch) {
  const bool set = design.cells.at(row, stitch);
  if (design.convention == Convention::kWorking) return set;
  const Colour own = design.row_colours.empty() ? (row % 2 == 1 ? Colour::kA : Colour::kB)
                                                : design.row_colours[static_cast<size_t>(row - 1)];
  return set != (own == Colour::kB);
}

Design ReadAs(const Design& design, FindingCode reading) {
  Design read = design;
  if (reading != FindingCode::kColoursSwapped) {
    read.convention =
        design.convention == Convention::kPicture ? Convention::kWorking : Convention::kPicture;
  }
  for (int row = 1; row <= design.cells.rows(); ++row) {
    for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
      const bool other_mark = reading == FindingCode::kMarksOfOtherConvention &&
                              Marked(read, row, stitch) != Marked(design, row, stitch);
      if (reading == FindingCode::kColoursSwapped || other_mark) {
        read.cells.set(row, stitch, !design.cells.at(row, stitch));
      }
    }
  }
  return read;
}

// "In at least half of its stitches as given, and in none as read otherwise." For a working chart
// given as a picture also: in at least half of the stitches with a set cell, three at least.
std::optional<FindingCode> CertainlyMeant(const Design& design,
                                          const std::vector<Finding>& findings) {
  if (design.cells.stitches() < 3 || design.cells.rows() < 3) return std::nullopt;
  for (const Colour colour : design.row_colours) {
    if (colour != Colour::kA && colour != Colour::kB) return std::nullopt;
  }
  const std::set<int> faulty = FaultyStitches(findings);
  size_t with_set = 0;
  size_t faulty_with_set = 0;
  for (int stitch = 1; stitch <= design.cells.stitches(); ++stitch) {
    if (!HasSetCell(design, stitch)) continue;
    ++with_set;
    faulty_with_set += faulty.count(stitch);
  }
  const bool half_fail = faulty.size() * 2 >= static_cast<size_t>(design.cells.stitches());
  const bool half_of_set_fail = faulty_with_set >= 3 && faulty_with_set * 2 >= with_set;
  for (const FindingCode reading :
       {FindingCode::kOtherConvention, FindingCode::kMarksOfOtherConvention,
        FindingCode::kColoursSwapped}) {
    const bool may_be_working =
        reading == FindingCode::kOtherConvention && design.convention == Convention::kPicture;
    if (!half_fail && !(may_be_working && half_of_set_fail)) continue;
    if (FaultyStitches(AllFindings(ReadAs(design, reading), {})).empty()) return reading;
  }
  return std::nullopt;
}

}  // namespace

CheckResult PlainCheck(const Design& design, const CheckSettings& settings) {
  CheckResult result;
  result.findings = AllFindings(design, settings);
  if (const auto reading = CertainlyMeant(design, result.findings)) {
    result.findings.push_back({*reading, Severity::kNote, 0, 0, 0, Seam::kNone, 0,
                               static_cast<int>(design.sizes.size())});
    std::stable_sort(result.findings.begin(), result.findings.end(), Before);
  }
  for (const Finding& finding : result.findings) {
    if (finding.severity == Severity::kError) ++result.error_count;
    if (finding.severity == Severity::kWarning) ++result.warning_count;
    if (finding.severity == Severity::kNote) ++result.note_count;
    ++result.code_counts[static_cast<size_t>(finding.code)];
  }
  if (result.findings.size() > 1000) result.findings.resize(1000);
  return result;
}

bool Covers(const Finding& finding, int stitch, const Design& design) {
  const auto in = [stitch](int first, int last) { return first <= stitch && stitch <= last; };
  if (finding.stitch <= finding.last_stitch) return in(finding.stitch, finding.last_stitch);
  if (finding.seam == Seam::kJoin) {
    return in(finding.stitch, design.cells.stitches()) || in(1, finding.last_stitch);
  }
  return in(finding.stitch, design.stitch_band->last) ||
         in(design.stitch_band->first, finding.last_stitch);
}

}  // namespace rowproof::chart
