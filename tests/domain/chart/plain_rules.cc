#include "tests/domain/chart/plain_rules.h"

#include <algorithm>
#include <set>

namespace rowproof::chart {
namespace {

// One size worked in full. Rows and stitches from 1; index 0 of the lists is unused.
struct Piece {
  bool picture = false;
  std::vector<int> row;     // chart row of each worked row
  std::vector<int> stitch;  // chart stitch of each worked stitch
  std::vector<int> colour;  // 0 is A, 1 is B
  std::vector<std::vector<bool>> cell;

  int rows() const { return static_cast<int>(row.size()) - 1; }
  int stitches() const { return static_cast<int>(stitch.size()) - 1; }
  int RowAt(int r) const { return row[static_cast<size_t>(r)]; }
  int StitchAt(int s) const { return stitch[static_cast<size_t>(s)]; }
  int ColourAt(int r) const { return colour[static_cast<size_t>(r)]; }
  bool CellAt(int r, int s) const { return cell[static_cast<size_t>(r)][static_cast<size_t>(s)]; }

  // Whether (r, s) is a drop; row rows() + 1 stands for the row that a picture's last row lacks.
  bool Drop(int r, int s) const {
    if (r < 1) return false;
    if (!picture) return r <= rows() && CellAt(r, s);
    return r >= 2 && CellAt(r - 1, s) != (ColourAt(r - 1) == 1);
  }
  // The worked row whose chart row names the place of a drop in row r.
  int PlaceOf(int r) const { return picture ? r - 1 : r; }
};

std::vector<int> LayOut(int length, bool has_band, int first, int last, int repeats) {
  std::vector<int> list = {0};
  int at = 1;
  int done = 1;
  while (at <= length) {
    list.push_back(at);
    if (has_band && at == last && done < repeats) {
      ++done;
      at = first;
    } else {
      ++at;
    }
  }
  return list;
}

bool OddRepeat(const Design& design) {
  return design.row_band && design.row_colours.empty() &&
         (design.row_band->last - design.row_band->first + 1) % 2 == 1;
}

Piece MakePiece(const Design& design, const Size& size) {
  Piece piece;
  piece.picture = design.convention == Convention::kPicture;
  const bool row_band = design.row_band.has_value();
  const bool stitch_band = design.stitch_band.has_value();
  piece.row =
      LayOut(design.cells.rows(), row_band, row_band ? design.row_band->first : 0,
             row_band ? design.row_band->last : 0, OddRepeat(design) ? 1 : size.row_repeats);
  piece.stitch =
      LayOut(design.cells.stitches(), stitch_band, stitch_band ? design.stitch_band->first : 0,
             stitch_band ? design.stitch_band->last : 0, size.stitch_repeats);
  piece.colour = {0};
  piece.cell = {{}};
  for (int r = 1; r <= piece.rows(); ++r) {
    if (design.row_colours.empty()) {
      piece.colour.push_back(r % 2 == 1 ? 0 : 1);
    } else {
      const Colour colour = design.row_colours[static_cast<size_t>(piece.RowAt(r) - 1)];
      piece.colour.push_back(colour == Colour::kA ? 0 : 1);
    }
    std::vector<bool> line = {false};
    for (int s = 1; s <= piece.stitches(); ++s) {
      line.push_back(design.cells.at(piece.RowAt(r), piece.StitchAt(s)));
    }
    piece.cell.push_back(line);
  }
  return piece;
}

// Findings of one size.
class PlainChecker {
 public:
  PlainChecker(const Design& design, const Piece& piece, int size, int longest)
      : design_(design), piece_(piece), size_(size), longest_(longest) {}

  std::vector<Finding> Run() {
    for (int r = 1; r <= piece_.rows() + 1; ++r) {
      for (int s = 1; s <= piece_.stitches(); ++s) {
        if (piece_.Drop(r, s)) CheckDrop(r, s);
      }
    }
    if (design_.ends == Ends::kCarried) CheckRuns();
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

  void CheckDrop(int r, int s) {
    const int place = piece_.PlaceOf(r);
    const int row = piece_.RowAt(place);
    const int stitch = piece_.StitchAt(s);
    const auto add = [&](FindingCode code, Severity severity, bool drawn) {
      Add(code, severity, row, stitch, stitch, drawn ? Seam::kNone : Seam::kRowRepeat);
    };
    if (r - 2 < 1) add(FindingCode::kNoAnchor, Severity::kError, true);
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

  void CheckRuns() {
    for (int r = 1; r <= piece_.rows(); ++r) {
      int length = 0;
      for (int s = 1; s <= piece_.stitches() + 1; ++s) {
        if (s <= piece_.stitches() && piece_.Drop(r, s)) {
          ++length;
          continue;
        }
        if (length > longest_) {
          const int first = piece_.StitchAt(s - length);
          const int last = piece_.StitchAt(s - 1);
          Add(FindingCode::kLooseStrand, Severity::kWarning, piece_.RowAt(piece_.PlaceOf(r)), first,
              last, last - first + 1 > longest_ ? Seam::kNone : Seam::kStitchRepeat);
        }
        length = 0;
      }
    }
  }

  // The chart rows in which the column is not: plain (-1), or drops in every row of `colour` from
  // its second on.
  std::set<int> Uneven(int s, int colour) const {
    std::set<int> rows;
    int met = 0;
    for (int r = 1; r <= piece_.rows(); ++r) {
      if (piece_.ColourAt(r) == colour) ++met;
      const bool wanted = piece_.ColourAt(r) == colour && met >= 2;
      const int place = piece_.PlaceOf(r);
      if (place >= 1 && piece_.Drop(r, s) != wanted) rows.insert(piece_.RowAt(place));
    }
    return rows;
  }

  void CheckEdge(int s) {
    std::set<int> best = Uneven(s, -1);
    for (const int colour : {0, 1}) {
      const std::set<int> rows = Uneven(s, colour);
      if (rows.size() < best.size()) best = rows;
    }
    for (const int row : best) {
      Add(FindingCode::kEdgeDrop, Severity::kWarning, row, piece_.StitchAt(s), piece_.StitchAt(s),
          Seam::kNone);
    }
  }

  void CheckColours() {
    const bool strict = design_.ends == Ends::kCarried ||
                        (design_.ends == Ends::kWaiting && design_.facing == Facing::kPaired &&
                         design_.form == Form::kFlat);
    for (int r = 2; r <= piece_.rows(); ++r) {
      if (piece_.ColourAt(r) != piece_.ColourAt(r - 1)) continue;
      Add(FindingCode::kColourOrder, strict ? Severity::kError : Severity::kWarning,
          piece_.RowAt(r), 0, 0,
          piece_.RowAt(r - 1) == piece_.RowAt(r) - 1 ? Seam::kNone : Seam::kRowRepeat);
    }
  }

  // What goes together, as a list.
  bool EndsFit() const {
    const Ends ends = design_.ends;
    if (design_.form == Form::kTube) return ends == Ends::kWaiting || ends == Ends::kCut;
    if (design_.facing == Facing::kOneFace) return ends == Ends::kCut;
    if (design_.facing == Facing::kTwoFace) return ends == Ends::kCut || ends == Ends::kCarried;
    return ends == Ends::kWaiting || ends == Ends::kCut;
  }

  void CheckWhole() {
    if (!EndsFit()) Add(FindingCode::kEndsDoNotFit, Severity::kError, 0, 0, 0, Seam::kNone);
    if (!design_.row_band) return;
    const int first = design_.row_band->first;
    const int length = design_.row_band->last - first + 1;
    if (OddRepeat(design_)) {
      Add(FindingCode::kOddRowRepeat, Severity::kError, first, 0, 0, Seam::kNone);
    } else if (design_.form == Form::kFlat &&
               ((design_.facing == Facing::kPaired && length % 4 != 0) ||
                (design_.facing == Facing::kTwoFace && length % 2 != 0))) {
      Add(FindingCode::kFacingRepeat, Severity::kWarning, first, 0, 0, Seam::kNone);
    }
  }

  const Design& design_;
  const Piece& piece_;
  int size_;
  int longest_;
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

}  // namespace

CheckResult PlainCheck(const Design& design, int longest_carried_run) {
  std::vector<Finding> all;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    const Piece piece = MakePiece(design, design.sizes[i]);
    PlainChecker checker(design, piece, static_cast<int>(i), longest_carried_run);
    const auto found = checker.Run();
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
      if (finding.seam == Seam::kNone) merged.back().seam = Seam::kNone;
    }
    last_size = finding.size;
  }
  CheckResult result;
  for (const Finding& finding : merged) {
    if (finding.severity == Severity::kError) ++result.error_count;
    if (finding.severity == Severity::kWarning) ++result.warning_count;
    if (finding.severity == Severity::kNote) ++result.note_count;
  }
  if (merged.size() > 1000) merged.resize(1000);
  result.findings = merged;
  return result;
}

}  // namespace rowproof::chart
