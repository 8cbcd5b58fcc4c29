#include "services/drawing/chart_key.h"

#include <utility>

#include "fmt/format.h"
#include "services/domain/chart/technique.h"
#include "services/drawing/chart_labels.h"

namespace rowproof::drawing {
namespace {

// Swatches lie in this much of the width, in em; the words stand beside them.
constexpr double kSwatches = 3.4;
constexpr size_t kMostInSwatch = 2;

}  // namespace

ChartKey::ChartKey(const Typesetter& typesetter, const ChartModel& model, const ChartLook& look,
                   const DrawingRequest& request, double font, double width)
    : typesetter_(typesetter), look_(look), font_(font), width_(width) {
  look_.cell = font * 1.15;
  look_.font = font;
  if (model.shown == chart::Convention::kPicture) {
    AddPictureCells(model, request);
  } else {
    AddWorkingCells(model, request);
  }
  AddRows(model);
  AddRepeats(model);
}

void ChartKey::Add(const std::string& text, Swatch swatch) {
  TextStyle style;
  style.size = font_;
  style.width = width_ - kSwatches * font_;
  style.most_lines = 2;
  Text set = typesetter_.Set(text, style);
  const double height = set.height() + 0.3 * font_;
  entries_.push_back({std::move(swatch), std::move(set), height_});
  height_ += height;
}

ChartKey::Swatch ChartKey::Cells(const ChartModel& model, std::vector<size_t> colours,
                                 CellMark mark) {
  if (colours.size() > kMostInSwatch) colours.resize(kMostInSwatch);
  return [this, shown = model.shown, colours = std::move(colours), mark](cairo_t* cr, double x,
                                                                         double y) {
    for (const size_t colour : colours) {
      PaintCell(cr, shown, look_, colour, mark, x, y);
      x += look_.cell * 1.25;
    }
  };
}

void ChartKey::AddPictureCells(const ChartModel& model, const DrawingRequest& request) {
  for (const size_t colour : model.colours) {
    Add("shows " + NameOf(colour, request), Cells(model, {colour}, CellMark::kNone));
  }
  const bool skips = chart::FactsOf(model.technique).skips;
  Add(skips ? "wedge: this stitch is skipped behind a chain, and a drop stitch "
              "of the row above "
              "fills it"
            : "wedge: a drop stitch of the row above reaches down over this "
              "stitch",
      Cells(model, model.colours, CellMark::kDrop));
}

void ChartKey::AddWorkingCells(const ChartModel& model, const DrawingRequest& request) {
  for (const size_t colour : model.colours) {
    Add("plain stitch in " + NameOf(colour, request), Cells(model, {colour}, CellMark::kNone));
  }
  const chart::TechniqueFacts& facts = chart::FactsOf(model.technique);
  if (!facts.skips) {
    Add("wedge: drop stitch, worked in the row's colour into the stitch two "
        "rows down",
        Cells(model, model.colours, CellMark::kDrop));
    return;
  }
  Add("wedge: drop stitch, worked in the RS row into the skipped stitch below; "
      "in the WS row it is "
      "worked as a plain stitch",
      Cells(model, model.colours, CellMark::kDrop));
  Add("two links: a stitch skipped behind a chain in both rows; over n skipped "
      "stitches in a run, "
      "ch n+1",
      Cells(model, model.colours, CellMark::kChain));
}

void ChartKey::AddRows(const ChartModel& model) {
  std::string rows = model.tube
                         ? "A round's number stands where the round starts, with its side and "
                           "colour; every round is read alike, the way the arrow points"
                         : "A row's number stands where the row starts, with its side and "
                           "colour; "
                           "read the way the arrow points";
  if (model.left_handed) rows += " (numbered for left-handed makers)";
  Add(rows, [this](cairo_t* cr, double x, double y) {
    SetColour(cr, kInk);
    PaintArrow(cr, x + 0.3 * font_, y + look_.cell / 2, font_ * 0.7, true);
    PaintArrow(cr, x + 1.5 * font_, y + look_.cell / 2, font_ * 0.7, false);
  });
  Add(model.worked_rows > 1 ? "Each row of cells is two worked rows; heavier lines stand after "
                              "every tenth row of "
                              "cells and every tenth stitch"
                            : "Heavier lines stand after every tenth row and stitch",
      [this](cairo_t* cr, double x, double y) {
        SetColour(cr, kInk);
        cairo_rectangle(cr, x, y + look_.cell / 2 - look_.heavy / 2, 2.45 * font_, look_.heavy);
        cairo_fill(cr);
      });
}

void ChartKey::AddRepeats(const ChartModel& model) {
  const auto nothing = [](cairo_t*, double, double) {};
  if (!model.size_shown.empty()) {
    Add(fmt::format("Size {}, its repeats written out: {} rows of {} stitches", model.size_shown,
                    model.rows * model.worked_rows, model.stitches),
        nothing);
  }
  if (!model.stitch_band.has_value() && !model.row_band.has_value()) return;
  std::string repeats = "repeat ";
  if (model.row_band.has_value()) repeats += model.repeated_rows + ": " + model.row_times;
  if (model.stitch_band.has_value()) {
    if (model.row_band.has_value()) repeats += "; ";
    repeats += model.repeated_stitches + ": " + model.stitch_times;
  }
  if (!model.sizes.empty()) repeats += "; sizes " + model.sizes;
  Add(repeats, [this](cairo_t* cr, double x, double y) {
    const double dash = font_ * 0.35;
    cairo_set_dash(cr, &dash, 1, 0);
    cairo_set_line_width(cr, 1.6 * look_.heavy);
    SetColour(cr, kRepeat);
    cairo_move_to(cr, x, y + look_.cell / 2);
    cairo_line_to(cr, x + 2.45 * font_, y + look_.cell / 2);
    cairo_stroke(cr);
    cairo_set_dash(cr, nullptr, 0, 0);
  });
  if (model.row_band.has_value()) {
    Add("The chart numbers each repeated row once; the written rows number it "
        "as it is worked.",
        nothing);
  }
}

void ChartKey::Paint(cairo_t* cr, double x, double y) const {
  for (const Entry& entry : entries_) {
    const double top = y + entry.y;
    entry.swatch(cr, x, top);
    SetColour(cr, kInk);
    entry.text.Draw(cr, x + kSwatches * font_, top);
  }
}

}  // namespace rowproof::drawing
