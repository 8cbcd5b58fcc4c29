#include "services/domain/estimate/part_lengths.h"

#include <algorithm>

namespace rowproof::estimate {
namespace {

using chart::Colour;

class PartsBuilder {
 public:
  explicit PartsBuilder(const Piece& piece)
      : piece_(piece),
        paths_(piece.materials.assumptions.paths),
        rows_(RowsWithFoundation(piece)) {}

  PartLengths Build() {
    for (const Colour colour : kRowColours) {
      AddStitches(colour);
      AddTails(colour);
      AddStarts(colour);
      if (piece_.ends() == chart::Ends::kCarried) AddCarried(colour);
      if (piece_.ends() != chart::Ends::kCut) AddClimb(colour);
      if (piece_.materials.swatch.has_value()) AddSwatch(colour);
    }
    AddFoundation();
    if (piece_.border_rounds() > 0) AddBorder();
    if (piece_.finished()) AddFringe();
    return parts_;
  }

 private:
  LinearLength& Part(YarnColour colour, PartKind part) {
    return parts_[static_cast<size_t>(colour)][static_cast<size_t>(part)];
  }
  LinearLength& Part(Colour colour, PartKind part) { return Part(YarnColourOf(colour), part); }
  const ColourCounts& Rows(Colour colour) const { return rows_[static_cast<size_t>(colour)]; }
  const StitchPath& Path(StitchKind kind) const { return PathOf(paths_, kind); }

  void AddStitches(Colour colour) {
    Part(colour, PartKind::kStitches) =
        StitchLength(piece_, piece_.worked.colours[static_cast<size_t>(colour)]);
  }

  void AddTails(Colour colour) {
    if (!Uses(piece_, colour)) return;
    Part(colour, PartKind::kTails).fixed_mm =
        piece_.ends() == chart::Ends::kCut ? 2 * Rows(colour).rows * RowTailMm(piece_.materials)
                                           : 2 * WovenTailMm(piece_.materials);
  }

  void AddStarts(Colour colour) {
    LinearLength& part = Part(colour, PartKind::kStarts);
    part.w = 3.0 * Rows(colour).rows;
    if (piece_.tube()) part.Add(Path(StitchKind::kSlipStitch), Rows(colour).rows);
  }

  // Every row between a colour's first and last that is not its own carries its strand.
  void AddCarried(Colour colour) {
    const ColourCounts& rows = Rows(colour);
    if (rows.rows == 0) return;
    const int carrying = rows.last_row - rows.first_row + 1 - rows.rows;
    Part(colour, PartKind::kCarried).w =
        carrying * (1 + piece_.materials.slack) * piece_.worked.stitches;
  }

  // From chart row to chart row: inset's second worked row starts where its first ended.
  void AddClimb(Colour colour) {
    const int climbs = std::max(0, Rows(colour).chart_rows - 1);
    Part(colour, PartKind::kClimb) = {1.0 * climbs, 2.0 * climbs, 0, 0};
  }

  // The swatch has the kinds and colours in the finished size's proportions.
  void AddSwatch(Colour colour) {
    const ColourCounts& counts = piece_.whole.colours[static_cast<size_t>(colour)];
    if (counts.rows == 0) return;
    const Swatch& swatch = *piece_.materials.swatch;
    const double share = static_cast<double>(swatch.stitches) * swatch.rows /
                         (static_cast<double>(piece_.whole.stitches) * piece_.whole.rows);
    LinearLength& part = Part(colour, PartKind::kSwatch);
    part = StitchLength(piece_, counts);
    part.Scale(share);
    part.fixed_mm = 2 * WovenTailMm(piece_.materials);
  }

  void AddFoundation() {
    LinearLength& part = Part(piece_.foundation_colour(), PartKind::kFoundation);
    const int stitches = piece_.worked.stitches;
    if (piece_.worked_foundation()) {
      part.Add(Path(StitchKind::kChain), stitches);
      part.Add(Path(StitchKind::kSingleCrochet), stitches);
    } else if (piece_.tube()) {
      part.Add(Path(StitchKind::kChain), stitches);
      part.Add(Path(StitchKind::kSlipStitch), 1);
    } else {
      part.Add(Path(StitchKind::kChain), stitches + 1);
    }
  }

  void AddBorder() {
    LinearLength& part = Part(piece_.materials.border.colour, PartKind::kBorder);
    part.Add(Path(StitchKind::kSingleCrochet), static_cast<double>(BorderStitches(piece_)));
    part.fixed_mm = 2 * piece_.border_layers() * WovenTailMm(piece_.materials);
  }

  void AddFringe() {
    for (const AddedFringe& fringe : piece_.materials.added_fringe) {
      Part(fringe.colour, PartKind::kFringe).fixed_mm +=
          fringe.strands *
          (2 * fringe.length_mm + piece_.materials.assumptions.fringe_allowance_mm);
    }
  }

  const Piece& piece_;
  const StitchPaths& paths_;
  const std::array<ColourCounts, chart::kMostColours> rows_;
  PartLengths parts_ = {};
};

}  // namespace

std::array<ColourCounts, chart::kMostColours> RowsWithFoundation(const Piece& piece) {
  auto rows = piece.worked.colours;
  if (!piece.worked_foundation()) return rows;
  ColourCounts& own = rows[static_cast<size_t>(piece.foundation_colour())];
  ++own.rows;
  ++own.chart_rows;
  own.first_row = 0;
  return rows;
}

bool Uses(const Piece& piece, chart::Colour colour) {
  return piece.worked.colours[static_cast<size_t>(colour)].rows > 0 ||
         piece.foundation_colour() == colour;
}

LinearLength StitchLength(const Piece& piece, const ColourCounts& counts) {
  const StitchPaths& paths = piece.materials.assumptions.paths;
  LinearLength length;
  length.Add(PathOf(paths, piece.technique().plain), static_cast<double>(counts.plain));
  length.Add(PathOf(paths, piece.technique().drop), static_cast<double>(counts.drops));
  length.Add(PathOf(paths, StitchKind::kChain), static_cast<double>(counts.chains));
  return length;
}

int64_t BorderStitches(const Piece& piece) {
  const int rounds = piece.border_rounds();
  if (rounds == 0) return 0;
  const auto of_round = [&piece](int64_t round) {
    return piece.tube()
               ? 2 * int64_t{piece.whole.stitches}
               : 2 * int64_t{piece.whole.stitches} + 2 * int64_t{piece.whole.rows} + 8 * round;
  };
  int64_t stitches = 0;
  for (int round = 1; round <= rounds; ++round) stitches += of_round(round);
  if (!piece.materials.border.enclosing_double) return stitches;
  return 2 * stitches + of_round(rounds + 1);
}

PartLengths PartsOf(const Piece& piece) { return PartsBuilder(piece).Build(); }

}  // namespace rowproof::estimate
