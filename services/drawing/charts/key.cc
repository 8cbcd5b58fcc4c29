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
      legend_.Add("Shows " + NameOf(colour, request_), Cells({colour}, CellMark::kNone));
    }
    const bool skips = chart::FactsOf(model_.technique).skips;
    legend_.Add(skips ? "Wedge: chain over this stitch; a drop stitch of the row above fills it."
                      : "Wedge: the next row works a spike over this stitch.",
                Cells(model_.colours, CellMark::kDrop));
  }

  void AddWorkingCells() {
    for (const size_t colour : model_.colours) {
      legend_.Add("Plain stitch in " + NameOf(colour, request_), Cells({colour}, CellMark::kNone));
    }
    if (!chart::FactsOf(model_.technique).skips) {
      legend_.Add("Wedge: drop stitch, worked in the row's colour into the stitch two rows below.",
                  Cells(model_.colours, CellMark::kDrop));
      return;
    }
    legend_.Add(
        "Wedge: in the RS row, work a drop stitch into the skipped stitch of the same colour "
        "below; "
        "in the WS row, work a plain stitch.",
        Cells(model_.colours, CellMark::kDrop));
    legend_.Add("Two links: chain over this stitch in both rows (n + 1 chains over n stitches).",
                Cells(model_.colours, CellMark::kChain));
  }

  void AddFoundation() {
    if (!model_.foundation.has_value()) return;
    const double side = legend_.SwatchSide();
    legend_.Add(fmt::format("Strip below row {}: the worked foundation (row {}) in {}.",
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
    std::string rows =
        model_.tube ? "Each round's number, side and colour are where the round starts; read "
                      "every round in the direction of the arrow"
                    : "Each row's number, side and colour are where the row starts; read in "
                      "the direction of the arrow";
    if (model_.left_handed) rows += " (numbered for left-handed makers)";
    const double side = legend_.SwatchSide();
    legend_.Add(rows, [side](cairo_t* cr, double x, double y) {
      SetColour(cr, kInk);
      PaintArrow(cr, x + 0.26 * side, y + side / 2, 0.6 * side, true);
      PaintArrow(cr, x + 1.3 * side, y + side / 2, 0.6 * side, false);
    });
    legend_.Add(model_.worked_rows > 1
                    ? "Each row of cells is two rows; lines are heavier after every tenth row of "
                      "cells and every tenth stitch."
                    : "Lines are heavier after every tenth row and stitch.",
                [side, heavy = look_.heavy](cairo_t* cr, double x, double y) {
                  SetColour(cr, kInk);
                  cairo_rectangle(cr, x, y + side / 2 - heavy / 2, 2.1 * side, heavy);
                  cairo_fill(cr);
                });
  }

  void AddRepeats() {
    if (!model_.size_shown.empty()) {
      legend_.AddLine(fmt::format("Size {} with its repeats written out: {} rows of {} stitches.",
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
          "The chart numbers repeated rows once; the written rows number them as worked.");
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
