#include "tests/domain/chart/plain_piece.h"

namespace rowproof::chart {
namespace {

std::vector<int> LayOut(int length, const std::optional<Band>& band, int repeats) {
  std::vector<int> list;
  list.reserve(static_cast<size_t>(length) + 1);
  list.push_back(0);
  int at = 1;
  int done = 1;
  while (at <= length) {
    list.push_back(at);
    if (band && at == band->last && done < repeats) {
      ++done;
      at = band->first;
    } else {
      ++at;
    }
  }
  return list;
}

Colour ShownBy(const Design& design, int row, int stitch) {
  if (design.picture_colours.empty()) {
    return design.cells.at(row, stitch) ? Colour::kB : Colour::kA;
  }
  const int cell = (row - 1) * design.cells.stitches() + stitch - 1;
  return design.picture_colours[static_cast<size_t>(cell)];
}

}  // namespace

bool OddRepeat(const Design& design) {
  return design.row_band && design.row_colours.empty() &&
         (design.row_band->last - design.row_band->first + 1) % 2 == 1;
}

PlainPiece MakePlainPiece(const Design& design, const Size& size) {
  PlainPiece piece;
  piece.picture = design.convention == Convention::kPicture;
  piece.row =
      LayOut(design.cells.rows(), design.row_band, OddRepeat(design) ? 1 : size.row_repeats);
  piece.stitch = LayOut(design.cells.stitches(), design.stitch_band, size.stitch_repeats);
  piece.colour = {Colour::kA};
  piece.colour.reserve(piece.row.size());
  for (int r = 1; r <= piece.rows(); ++r) {
    if (design.row_colours.empty()) {
      piece.colour.push_back(r % 2 == 1 ? Colour::kA : Colour::kB);
    } else {
      piece.colour.push_back(design.row_colours[static_cast<size_t>(piece.RowAt(r) - 1)]);
    }
    for (int s = 1; s <= piece.stitches(); ++s) {
      if (piece.picture) {
        piece.shown.push_back(ShownBy(design, piece.RowAt(r), piece.StitchAt(s)));
      } else {
        piece.drop.push_back(design.cells.at(piece.RowAt(r), piece.StitchAt(s)) ? 1 : 0);
      }
    }
  }
  return piece;
}

}  // namespace rowproof::chart
