#include "services/drawing/charts/key.h"

#include <string>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/domain/chart/technique.h"
#include "services/drawing/charts/labels.h"

namespace rowproof::drawing {
namespace {

constexpr size_t kMostInSwatch = 2;

class Key {
 public:
  Key(const ChartModel& model, const ChartLook& look, const DrawingRequest& request, Legend& legend)
      : model_(model), look_(look), request_(request), legend_(legend) {}

  void AddPictureCells() {
    for (const size_t colour : model_.colours) {
      legend_.Add("shows " + NameOf(colour, request_), Cells({colour}, CellMark::kNone));
    }
    const bool skips = chart::FactsOf(model_.technique).skips;
    legend_.Add(skips
                    ? "wedge: this stitch is skipped behind a chain, and a drop stitch of the row "
                      "above fills it"
                    : "wedge: a drop stitch of the row above reaches down over this stitch",
                Cells(model_.colours, CellMark::kDrop));
  }

  void AddWorkingCells() {
    for (const size_t colour : model_.colours) {
      legend_.Add("plain stitch in " + NameOf(colour, request_), Cells({colour}, CellMark::kNone));
    }
    if (!chart::FactsOf(model_.technique).skips) {
      legend_.Add("wedge: drop stitch, worked in the row's colour into the stitch two rows down",
                  Cells(model_.colours, CellMark::kDrop));
      return;
    }
    legend_.Add(
        "wedge: drop stitch, worked in the RS row into the skipped stitch of its own colour below; "
        "the WS row works a plain stitch on it",
        Cells(model_.colours, CellMark::kDrop));
    legend_.Add(
        "two links: a stitch skipped behind a chain in both rows; over n skipped stitches side by "
        "side, ch n+1",
        Cells(model_.colours, CellMark::kChain));
  }

  void AddFoundation() {
    if (!model_.foundation.has_value()) return;
    const double side = legend_.SwatchSide();
    legend_.Add(fmt::format("strip below row {}: the foundation (row {}), stitches worked in {}",
                            model_.foundation_number + 1, model_.foundation_number,
                            NameOf(*model_.foundation, request_)),
                [side, ground = look_.grounds[*model_.foundation], thin = look_.thin](
                    cairo_t* cr, double x, double y) {
                  cairo_rectangle(cr, x, y + 0.2 * side, 2.1 * side, 0.6 * side);
                  SetColour(cr, ground);
                  cairo_fill_preserve(cr);
                  SetColour(cr, kInk);
                  cairo_set_line_width(cr, 1.5 * thin);
                  cairo_stroke(cr);
                });
  }

  void AddRows() {
    std::string rows = model_.tube
                           ? "A round's number stands where the round starts, with its side and "
                             "colour; every round is read alike, the way the arrow points"
                           : "A row's number stands where the row starts, with its side and "
                             "colour; read the way the arrow points";
    if (model_.left_handed) rows += " (numbered for left-handed makers)";
    const double side = legend_.SwatchSide();
    legend_.Add(rows, [side](cairo_t* cr, double x, double y) {
      SetColour(cr, kInk);
      PaintArrow(cr, x + 0.26 * side, y + side / 2, 0.6 * side, true);
      PaintArrow(cr, x + 1.3 * side, y + side / 2, 0.6 * side, false);
    });
    legend_.Add(model_.worked_rows > 1
                    ? "Each row of cells is two worked rows; heavier lines stand after every tenth "
                      "row of cells and every tenth stitch"
                    : "Heavier lines stand after every tenth row and stitch",
                [side, heavy = look_.heavy](cairo_t* cr, double x, double y) {
                  SetColour(cr, kInk);
                  cairo_rectangle(cr, x, y + side / 2 - heavy / 2, 2.1 * side, heavy);
                  cairo_fill(cr);
                });
  }

  void AddRepeats() {
    if (!model_.size_shown.empty()) {
      legend_.AddLine(fmt::format("Size {}, its repeats written out: {} rows of {} stitches",
                                  model_.size_shown, model_.rows * model_.worked_rows,
                                  model_.stitches));
    }
    if (!model_.stitch_band.has_value() && !model_.row_band.has_value()) return;
    std::string repeats = "repeat ";
    if (model_.row_band.has_value()) repeats += model_.repeated_rows + ": " + model_.row_times;
    if (model_.stitch_band.has_value()) {
      if (model_.row_band.has_value()) repeats += "; ";
      repeats += model_.repeated_stitches + ": " + model_.stitch_times;
    }
    if (!model_.sizes.empty()) repeats += "; sizes " + model_.sizes;
    const double side = legend_.SwatchSide();
    legend_.Add(repeats, [side, heavy = look_.heavy](cairo_t* cr, double x, double y) {
      const double dash = 0.3 * side;
      cairo_set_dash(cr, &dash, 1, 0);
      cairo_set_line_width(cr, 1.6 * heavy);
      SetColour(cr, kRepeat);
      cairo_move_to(cr, x, y + side / 2);
      cairo_line_to(cr, x + 2.1 * side, y + side / 2);
      cairo_stroke(cr);
      cairo_set_dash(cr, nullptr, 0, 0);
    });
    if (model_.row_band.has_value()) {
      legend_.AddLine(
          "The chart numbers each repeated row once; the written rows number it as it is worked.");
    }
  }

 private:
  // Cells side by side with a mark.
  Legend::Swatch Cells(std::vector<size_t> colours, CellMark mark) const {
    if (colours.size() > kMostInSwatch) colours.resize(kMostInSwatch);
    return [shown = model_.shown, look = look_, colours = std::move(colours), mark,
            pitch = legend_.SwatchPitch()](cairo_t* cr, double x, double y) {
      for (const size_t colour : colours) {
        PaintCell(cr, shown, look, colour, mark, x, y);
        x += pitch;
      }
    };
  }

  const ChartModel& model_;
  const ChartLook& look_;
  const DrawingRequest& request_;
  Legend& legend_;
};

}  // namespace

Legend ChartKey(const Typesetter& typesetter, const ChartModel& model, ChartLook look,
                const DrawingRequest& request, double font, double width) {
  Legend legend(typesetter, font, width);
  look.cell = legend.SwatchSide();
  look.font = font;
  Key key(model, look, request, legend);
  if (model.shown == chart::Convention::kPicture) {
    key.AddPictureCells();
  } else {
    key.AddWorkingCells();
  }
  key.AddFoundation();
  key.AddRows();
  key.AddRepeats();
  return legend;
}

}  // namespace rowproof::drawing
