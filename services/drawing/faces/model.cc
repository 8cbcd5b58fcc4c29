#include "services/drawing/faces/model.h"

#include <algorithm>

#include "services/domain/chart/expand.h"
#include "services/domain/chart/technique.h"
#include "services/drawing/charts/cells.h"
#include "services/drawing/charts/model.h"

namespace rowproof::drawing {
namespace {

using chart::Design;
using chart::Grid;
using chart::Side;

// Worked rows after which the sides come again in every facing.
constexpr int kSidesRepeatAfter = 4;

void AddStrips(const Design& design, FaceModel& model) {
  const int rows = design.cells.rows() * chart::WorkedRows(design);
  for (int row = model.foundation ? 0 : 1; row <= rows; ++row) {
    FaceStrip strip;
    strip.number = design.first_row_number + row - 1;
    strip.side = chart::SideOfWorkedRow(design, row == 0 ? kSidesRepeatAfter : row);
    strip.front = (strip.side == Side::kRightSide) == (model.face == 1);
    model.strips.push_back(strip);
  }
  // A stitch in the back loop only leaves the loop towards its maker. Inset takes both.
  if (chart::FactsOf(design.technique).skips) return;
  for (size_t i = 0; i + 1 < model.strips.size(); ++i) {
    model.strips[i].free_loops = model.strips[i + 1].front;
  }
}

// In two-face work a row with its wrong side towards the reader shows a share of its height, and
// the others share the rest.
void ShareHeights(FaceModel& model) {
  const auto back = static_cast<double>(std::count_if(model.strips.begin(), model.strips.end(),
                                                      [](const FaceStrip& s) { return !s.front; }));
  const double front = model.rows() - back;
  if (!model.squeezed || back == 0 || front == 0) return;
  for (FaceStrip& strip : model.strips) {
    strip.height = strip.front ? (model.rows() - back * model.wrong_side_share) / front
                               : model.wrong_side_share;
  }
}

class Cells {
 public:
  Cells(const Design& design, FaceModel& model)
      : facts_(chart::FactsOf(design.technique)),
        model_(model),
        drops_(DropCells(design)),
        colours_(RowColourIndices(design)) {}

  void Fill(std::optional<chart::Colour> foundation, const Stop& stop) {
    const size_t count = model_.strips.size() * static_cast<size_t>(model_.stitches);
    model_.colours.reserve(count);
    model_.looks.reserve(count);
    if (foundation.has_value()) AddFoundation(static_cast<uint8_t>(*foundation));
    const int worked_rows = drops_.rows() * facts_.worked_rows;
    for (int row = 1; row <= worked_rows; ++row) {
      if (stop.After(model_.stitches)) return;
      for (int stitch = 1; stitch <= model_.stitches; ++stitch) Add(row, stitch);
    }
  }

 private:
  void AddFoundation(uint8_t colour) {
    const StitchLook look = model_.strips.front().front ? StitchLook::kFront : StitchLook::kBack;
    for (int stitch = 1; stitch <= model_.stitches; ++stitch) Put(colour, look);
  }

  void Add(int worked_row, int stitch) {
    const int row = (worked_row - 1) / facts_.worked_rows + 1;
    const bool first = (worked_row - 1) % facts_.worked_rows == 0;
    const int strip = worked_row + (model_.foundation ? 1 : 0);
    const bool front = model_.strips[static_cast<size_t>(strip - 1)].front;
    const uint8_t own = colours_[static_cast<size_t>(row - 1)];
    const bool covered = row < drops_.rows() && drops_.at(row + 1, stitch);
    const bool shows_drops = facts_.picture_on_both_faces || model_.face == 1;
    if (covered && shows_drops) return Put(colours_[static_cast<size_t>(row)], StitchLook::kLegs);
    if (covered && facts_.skips) return Put(own, StitchLook::kChain);
    if (shows_drops && first && drops_.at(row, stitch)) {
      return Put(own, front ? StitchLook::kDropFront : StitchLook::kDropBack);
    }
    Put(own, front ? StitchLook::kFront : StitchLook::kBack);
  }

  void Put(uint8_t colour, StitchLook look) {
    model_.colours.push_back(colour);
    model_.looks.push_back(look);
  }

  const chart::TechniqueFacts& facts_;
  FaceModel& model_;
  const Grid drops_;
  const std::vector<uint8_t> colours_;
};

int64_t UnlikePicture(const Design& design, const Stop& stop) {
  const Grid drops = DropCells(design);
  const std::vector<uint8_t> rows = RowColourIndices(design);
  const std::vector<uint8_t> picture = PictureColours(design, stop);
  int64_t unlike = 0;
  size_t cell = 0;
  for (int row = 1; row <= drops.rows(); ++row) {
    if (stop.After(drops.stitches())) break;
    for (int stitch = 1; stitch <= drops.stitches(); ++stitch, ++cell) {
      const bool covered = row < drops.rows() && drops.at(row + 1, stitch);
      const auto seen = static_cast<size_t>(covered ? row : row - 1);
      if (picture[cell] != rows[seen]) ++unlike;
    }
  }
  return unlike;
}

}  // namespace

std::vector<double> FaceModel::Heights() const {
  std::vector<double> heights = {0};
  heights.reserve(strips.size() + 1);
  for (const FaceStrip& strip : strips) heights.push_back(heights.back() + strip.height);
  return heights;
}

FaceModel FaceModel::Make(const Design& design, const DrawingRequest& request, const Stop& stop) {
  if (request.size.has_value()) {
    DrawingRequest rest = request;
    rest.size.reset();
    FaceModel model = Make(WrittenOut(design, *request.size, stop), rest, stop);
    model.size_shown = design.sizes[static_cast<size_t>(*request.size)].name;
    return model;
  }
  FaceModel model;
  model.face = request.kind == DrawingKind::kFaceTwo ? 2 : 1;
  model.technique = design.technique;
  model.facing = chart::FacingOf(design);
  model.tube = design.form == chart::Form::kTube;
  model.posts = !chart::FactsOf(design.technique).picture_on_both_faces;
  model.squeezed = design.technique == chart::Technique::kSpike && !model.tube &&
                   design.facing == chart::Facing::kTwoFace;
  model.wrong_side_share = request.wrong_side_share.value_or(kAssumedWrongSideShare);
  model.stitches = design.cells.stitches();
  model.has_bands = design.stitch_band.has_value() || design.row_band.has_value();
  model.foundation = design.foundation_colour.has_value();
  AddStrips(design, model);
  ShareHeights(model);
  if (!stop.status().ok()) return model;
  Cells(design, model).Fill(design.foundation_colour, stop);
  if (!stop.status().ok()) return model;
  model.unlike_picture = UnlikePicture(design, stop);
  return model;
}

}  // namespace rowproof::drawing
