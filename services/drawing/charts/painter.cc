#include "services/drawing/charts/painter.h"

#include <algorithm>
#include <cmath>

#include "services/drawing/charts/labels.h"

namespace rowproof::drawing {
namespace {

constexpr Rgb kGrid{0.55, 0.55, 0.57};
constexpr double kTextureWidth = 0.07;  // of a cell
constexpr int kLeastRuledPixels = 6;
constexpr int kCellWork = 100;  // of a cell's paths, in units of Stop

ChartLook Coloured(ChartLook look, const ChartModel& model, const DrawingRequest& request) {
  const bool picture = model.shown == chart::Convention::kPicture;
  look.grounds = picture ? PaletteOf(request) : Tints();
  // The rows of a working chart carry their colour's letter, and its cells a
  // mark or nothing.
  look.textured = picture && NeedTexture(model.colours, look.grounds);
  return look;
}

void AddWedge(cairo_t* cr, double x, double y, double cell, bool large) {
  const double side = large ? 0.10 : 0.27;
  const double up = large ? 0.12 : 0.24;
  const double down = large ? 0.92 : 0.74;
  cairo_move_to(cr, x + side * cell, y + up * cell);
  cairo_line_to(cr, x + (1 - side) * cell, y + up * cell);
  cairo_line_to(cr, x + 0.5 * cell, y + down * cell);
  cairo_close_path(cr);
}

// Two links side by side, open so that nothing dark fills the cell.
void AddChain(cairo_t* cr, double x, double y, double cell) {
  for (const double middle : {0.27, 0.73}) {
    cairo_save(cr);
    cairo_translate(cr, x + middle * cell, y + 0.5 * cell);
    cairo_scale(cr, 0.19 * cell, 0.13 * cell);
    cairo_new_sub_path(cr);
    cairo_arc(cr, 0, 0, 1, 0, 2 * M_PI);
    cairo_restore(cr);
  }
}

// Paints what is in the path, on a halo of the ground where a texture would run
// into it.
void FillMarks(cairo_t* cr, const ChartLook& look, const Rgb& ground, const Rgb& mark) {
  if (look.textured) {
    SetColour(cr, ground);
    cairo_set_line_width(cr, 0.16 * look.cell);
    cairo_stroke_preserve(cr);
  }
  SetColour(cr, mark);
  cairo_fill(cr);
}

void StrokeChains(cairo_t* cr, const ChartLook& look) {
  SetColour(cr, kInk);
  cairo_set_line_width(cr, 0.08 * look.cell);
  cairo_stroke(cr);
}

void StrokeTexture(cairo_t* cr, const ChartLook& look, size_t colour) {
  SetColour(cr, Contrasting(look.grounds[colour]));
  cairo_set_line_width(cr, look.cell * kTextureWidth);
  cairo_stroke(cr);
}

class GridPainter {
 public:
  GridPainter(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
              const ChartLook& look, const ChartFrame& frame)
      : cr_(cr),
        typesetter_(typesetter),
        model_(model),
        look_(look),
        frame_(frame),
        part_(frame.part) {}

  void Run() {
    for (int row = part_.first_row; row <= part_.last_row; ++row) {
      if (typesetter_.StopAfter(kCellWork * part_.stitches())) return;
      for (const size_t colour : model_.colours) PaintRow(row, colour);
      PaintChains(row);
    }
    PaintFoundation();
    PaintLines();
    PaintRepeatLines();
  }

 private:
  bool working() const { return model_.shown == chart::Convention::kWorking; }

  // The cells of one colour in a row, neighbours as one rectangle, then their
  // marks.
  void PaintRow(int row, size_t colour) {
    bool any = false;
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch;) {
      int end = stitch;
      while (end <= part_.last_stitch && model_.ColourAt(row, end) == colour) ++end;
      if (end > stitch) {
        cairo_rectangle(cr_, frame_.X(end - 1), frame_.Y(row), (end - stitch) * look_.cell,
                        look_.cell);
        any = true;
      }
      stitch = std::max(end, stitch + 1);
    }
    if (!any) return;
    const Rgb ground = look_.grounds[colour];
    SetColour(cr_, ground);
    cairo_fill(cr_);
    const auto each = [&](auto wanted, auto add) {
      for (int stitch = part_.first_stitch; stitch <= part_.last_stitch; ++stitch) {
        if (model_.ColourAt(row, stitch) == colour && wanted(stitch)) add(stitch);
      }
    };
    if (look_.textured) {
      each([](int) { return true; },
           [&](int s) { AddTexture(cr_, colour, frame_.X(s), frame_.Y(row), look_.cell); });
      StrokeTexture(cr_, look_, colour);
    }
    each([&](int s) { return model_.marks.at(row, s); },
         [&](int s) { AddWedge(cr_, frame_.X(s), frame_.Y(row), look_.cell, working()); });
    FillMarks(cr_, look_, ground, working() ? kInk : Contrasting(ground));
  }

  void PaintChains(int row) {
    if (model_.chains.empty()) return;
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch; ++stitch) {
      if (model_.ChainAt(row, stitch)) {
        AddChain(cr_, frame_.X(stitch), frame_.Y(row), look_.cell);
      }
    }
    StrokeChains(cr_, look_);
  }

  // One strip without cells: no row of the chart, and nothing is chosen in it stitch by stitch.
  void PaintFoundation() {
    if (frame_.foundation == 0) return;
    cairo_rectangle(cr_, frame_.left, frame_.bottom(), frame_.right() - frame_.left,
                    frame_.foundation);
    SetColour(cr_, look_.grounds[*model_.foundation]);
    cairo_fill(cr_);
    for (const double x : {frame_.left, frame_.right()}) {
      AddVerticalLine(cr_, look_, x, frame_.bottom(), frame_.foot(), look_.thin);
    }
    AddHorizontalLine(cr_, look_, frame_.foot(), frame_.left, frame_.right(), look_.thin);
    SetColour(cr_, kInk);
    cairo_fill(cr_);
  }

  // Lines of one weight: the thin ones first, so that the heavy ones are over them.
  void PaintLines() {
    for (const bool heavy : {false, true}) {
      const double thickness = heavy ? look_.heavy : look_.thin;
      if (!heavy && !look_.ruled) continue;
      // After stitch s, that is at its left edge; 0 is the right edge of
      // stitch 1.
      for (int s = part_.first_stitch - 1; s <= part_.last_stitch; ++s) {
        const bool edge = s == 0 || s == model_.stitches;
        if ((edge || s % 10 == 0) == heavy) {
          AddVerticalLine(cr_, look_, frame_.X(s), frame_.top, frame_.bottom(), thickness);
        }
      }
      for (int r = part_.first_row - 1; r <= part_.last_row; ++r) {
        const bool edge = r == 0 || r == model_.rows;
        if ((edge || model_.HeavyAfterRow(r)) == heavy) {
          AddHorizontalLine(cr_, look_, frame_.Y(r), frame_.left, frame_.right(), thickness);
        }
      }
      SetColour(cr_, heavy ? kInk : kGrid);
      cairo_fill(cr_);
    }
  }

  // Broken lines through the chart at both ends of each repeated band: white
  // below, so that they show on a dark ground too.
  void PaintRepeatLines() {
    if (model_.stitch_band.has_value()) {
      for (const int s : {model_.stitch_band->first - 1, model_.stitch_band->last}) {
        if (s < part_.first_stitch - 1 || s > part_.last_stitch) continue;
        BrokenLine(frame_.X(s), frame_.top, frame_.X(s), frame_.bottom());
      }
    }
    if (model_.row_band.has_value()) {
      for (const int r : {model_.row_band->first - 1, model_.row_band->last}) {
        if (r < part_.first_row - 1 || r > part_.last_row) continue;
        BrokenLine(frame_.left, frame_.Y(r), frame_.right(), frame_.Y(r));
      }
    }
  }

  void BrokenLine(double x1, double y1, double x2, double y2) {
    const double dash = look_.cell * 0.35;
    for (const bool over : {false, true}) {
      if (over) cairo_set_dash(cr_, &dash, 1, 0);
      SetColour(cr_, over ? kRepeat : kWhite);
      cairo_set_line_width(cr_, (over ? 1.6 : 2.2) * look_.heavy);
      cairo_move_to(cr_, x1, y1);
      cairo_line_to(cr_, x2, y2);
      cairo_stroke(cr_);
    }
    cairo_set_dash(cr_, nullptr, 0, 0);
  }

  cairo_t* cr_;
  const Typesetter& typesetter_;
  const ChartModel& model_;
  const ChartLook& look_;
  const ChartFrame& frame_;
  const ChartPart part_;
};

}  // namespace

ChartLook PaperLook(double cell, const ChartModel& model, const DrawingRequest& request) {
  ChartLook look;
  look.cell = cell;
  look.font = std::clamp(cell * 0.55, 5.0, 7.5);
  look.thin = 0.35;
  look.heavy = 1.0;
  return Coloured(look, model, request);
}

double PixelFont(int cell) { return std::clamp(cell * 0.55, 9.0, 22.0); }

ChartLook PixelLook(int cell, const ChartModel& model, const DrawingRequest& request) {
  ChartLook look;
  look.cell = cell;
  look.font = PixelFont(cell);
  look.thin = 1;
  look.heavy = cell >= 24 ? 3 : cell >= 8 ? 2 : 1;
  // Lines around every cell would hide the smallest cells.
  look.ruled = cell >= kLeastRuledPixels;
  look.whole_pixels = true;
  return Coloured(look, model, request);
}

ChartPart WholeChart(const ChartModel& model) { return {1, model.rows, 1, model.stitches}; }

double FoundationHeight(const ChartModel& model, const ChartLook& look) {
  if (!model.foundation.has_value()) return 0;
  // Its label has to keep clear of row 1's.
  const double height = std::max(0.6 * look.cell, 1.2 * look.font);
  return look.whole_pixels ? std::round(height) : height;
}

void PaintChart(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
                const ChartLook& look, const ChartPart& part, double x, double y) {
  ChartFrame frame{part, look.cell, x, y};
  if (part.first_row == 1) frame.foundation = FoundationHeight(model, look);
  GridPainter(cr, typesetter, model, look, frame).Run();
  if (!typesetter.stop_status().ok()) return;
  PaintLabels(cr, typesetter, model, look, frame);
}

void PaintCell(cairo_t* cr, chart::Convention shown, const ChartLook& look, size_t colour,
               CellMark mark, double x, double y) {
  const bool working = shown == chart::Convention::kWorking;
  const Rgb ground = look.grounds[colour];
  cairo_rectangle(cr, x, y, look.cell, look.cell);
  SetColour(cr, ground);
  cairo_fill(cr);
  if (look.textured) {
    AddTexture(cr, colour, x, y, look.cell);
    StrokeTexture(cr, look, colour);
  }
  if (mark == CellMark::kDrop) {
    AddWedge(cr, x, y, look.cell, working);
    FillMarks(cr, look, ground, working ? kInk : Contrasting(ground));
  } else if (mark == CellMark::kChain) {
    AddChain(cr, x, y, look.cell);
    StrokeChains(cr, look);
  }
  cairo_rectangle(cr, x, y, look.cell, look.cell);
  SetColour(cr, kInk);
  cairo_set_line_width(cr, look.thin * 1.5);
  cairo_stroke(cr);
}

void AddVerticalLine(cairo_t* cr, const ChartLook& look, double x, double from, double to,
                     double thickness) {
  const double before = look.whole_pixels ? std::floor(thickness / 2) : thickness / 2;
  cairo_rectangle(cr, x - before, from - before, thickness, to - from + thickness);
}

void AddHorizontalLine(cairo_t* cr, const ChartLook& look, double y, double from, double to,
                       double thickness) {
  const double before = look.whole_pixels ? std::floor(thickness / 2) : thickness / 2;
  cairo_rectangle(cr, from - before, y - before, to - from + thickness, thickness);
}

}  // namespace rowproof::drawing
