#include "services/drawing/chart_painter.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rowproof::drawing {
namespace {

constexpr Rgb kInk{0.08, 0.09, 0.12};
constexpr Rgb kGrid{0.55, 0.55, 0.57};
constexpr Rgb kRepeat{0.70, 0.10, 0.10};
constexpr Rgb kTintA{1.00, 0.985, 0.94};
constexpr Rgb kTintB{0.66, 0.73, 0.80};
// Grounds closer than this look alike on a photocopy: cells of B then carry a stroke as well.
constexpr double kLeastLightnessApart = 0.25;
// DejaVu Sans: the advance of a digit, and of "WS", in em (read from the font).
constexpr double kDigit = 0.637;
constexpr double kSideName = 1.65;

bool NeedsStroke(chart::Convention shown, const ChartLook& look) {
  return std::abs(Lightness(Ground(shown, look, false)) - Lightness(Ground(shown, look, true))) <
         kLeastLightnessApart;
}

int Digits(int number) { return static_cast<int>(std::to_string(number).size()); }

// Places inside a row label, outwards from the cells.
struct LabelPlaces {
  double chip;  // near side of the chip with the colour's letter
  double chip_size;
  double arrow;
  double number;
  double side_name;
  double end;
};
LabelPlaces PlacesOf(const ChartModel& model, const ChartLook& look) {
  const double em = look.font;
  LabelPlaces places{};
  places.chip = 0.35 * em;
  places.chip_size = 1.05 * em;
  places.arrow = places.chip + places.chip_size + 0.25 * em;
  places.number = places.arrow + 0.75 * em;
  places.side_name = places.number + kDigit * em * Digits(model.highest_number) + 0.3 * em;
  places.end = places.side_name + kSideName * em;
  return places;
}

// Lane of the bracket beyond the labels, with its word.
double BracketLane(const ChartLook& look) { return 2.2 * look.font; }

class Painter {
 public:
  Painter(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model, const ChartLook& look,
          const ChartPart& part, double x, double y)
      : cr_(cr),
        typesetter_(typesetter),
        model_(model),
        look_(look),
        part_(part),
        left_(x),
        top_(y),
        right_(x + part.stitches() * look.cell),
        bottom_(y + part.rows() * look.cell) {}

  void Run() {
    for (int row = part_.first_row; row <= part_.last_row; ++row) PaintRow(row);
    PaintLines();
    PaintRepeatLines();
    PaintRowLabels();
    PaintStitchNumbers();
    PaintBrackets();
  }

 private:
  // Left and top edge of a cell.
  double X(int stitch) const { return left_ + (part_.last_stitch - stitch) * look_.cell; }
  double Y(int row) const { return top_ + (part_.last_row - row) * look_.cell; }

  void PaintRow(int row) {
    FillGrounds(row, false);
    FillGrounds(row, true);
    if (NeedsStroke(model_.shown, look_)) StrokeB(row);
    if (model_.shown == chart::Convention::kWorking) {
      FillWedges(row, kInk, [](int) { return true; });
      return;
    }
    for (const bool on_b : {false, true}) {
      FillWedges(row, Contrasting(Ground(model_.shown, look_, on_b)),
                 [&](int stitch) { return model_.CellIsB(row, stitch) == on_b; });
    }
  }

  // Neighbouring cells of one colour become one rectangle.
  void FillGrounds(int row, bool colour_b) {
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch;) {
      int end = stitch;
      while (end <= part_.last_stitch && model_.CellIsB(row, end) == colour_b) ++end;
      if (end > stitch) {
        cairo_rectangle(cr_, X(end - 1), Y(row), (end - stitch) * look_.cell, look_.cell);
      }
      stitch = end > stitch ? end : stitch + 1;
    }
    SetColour(cr_, Ground(model_.shown, look_, colour_b));
    cairo_fill(cr_);
  }

  void StrokeB(int row) {
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch; ++stitch) {
      if (!model_.CellIsB(row, stitch)) continue;
      cairo_move_to(cr_, X(stitch), Y(row) + look_.cell);
      cairo_line_to(cr_, X(stitch) + look_.cell, Y(row));
    }
    SetColour(cr_, Contrasting(Ground(model_.shown, look_, true)));
    cairo_set_line_width(cr_, look_.cell * 0.07);
    cairo_stroke(cr_);
  }

  template <typename Wanted>
  void FillWedges(int row, const Rgb& colour, Wanted wanted) {
    const bool large = model_.shown == chart::Convention::kWorking;
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch; ++stitch) {
      if (!model_.marks.at(row, stitch) || !wanted(stitch)) continue;
      AddWedge(cr_, X(stitch), Y(row), look_.cell, large);
    }
    SetColour(cr_, colour);
    cairo_fill(cr_);
  }

  void VerticalLine(double x, double from, double to, double thickness) {
    const double before = look_.whole_pixels ? std::floor(thickness / 2) : thickness / 2;
    cairo_rectangle(cr_, x - before, from - before, thickness, to - from + thickness);
  }
  void HorizontalLine(double y, double from, double to, double thickness) {
    const double before = look_.whole_pixels ? std::floor(thickness / 2) : thickness / 2;
    cairo_rectangle(cr_, from - before, y - before, to - from + thickness, thickness);
  }

  // Lines of one weight: the thin ones first, so that the heavy ones lie over them.
  void PaintLines() {
    for (const bool heavy : {false, true}) {
      const double thickness = heavy ? look_.heavy : look_.thin;
      // After stitch s, that is at its left edge; 0 is the right edge of stitch 1.
      for (int s = part_.first_stitch - 1; s <= part_.last_stitch; ++s) {
        const bool edge = s == 0 || s == model_.stitches;
        if ((edge || s % 10 == 0) == heavy) {
          VerticalLine(left_ + (part_.last_stitch - s) * look_.cell, top_, bottom_, thickness);
        }
      }
      for (int r = part_.first_row - 1; r <= part_.last_row; ++r) {
        const bool edge = r == 0 || r == model_.rows;
        if ((edge || model_.HeavyAfterRow(r)) == heavy) {
          HorizontalLine(top_ + (part_.last_row - r) * look_.cell, left_, right_, thickness);
        }
      }
      SetColour(cr_, heavy ? kInk : kGrid);
      cairo_fill(cr_);
    }
  }

  // Broken lines through the chart at both ends of each repeated band: white below, so that they
  // show on a dark ground too.
  void PaintRepeatLines() {
    const auto line = [&](double x1, double y1, double x2, double y2) {
      const double dash = look_.cell * 0.35;
      cairo_set_line_width(cr_, 2.2 * look_.heavy);
      SetColour(cr_, {1, 1, 1});
      cairo_move_to(cr_, x1, y1);
      cairo_line_to(cr_, x2, y2);
      cairo_stroke(cr_);
      cairo_set_dash(cr_, &dash, 1, 0);
      SetColour(cr_, kRepeat);
      cairo_set_line_width(cr_, 1.6 * look_.heavy);
      cairo_move_to(cr_, x1, y1);
      cairo_line_to(cr_, x2, y2);
      cairo_stroke(cr_);
      cairo_set_dash(cr_, nullptr, 0, 0);
    };
    if (model_.stitch_band.has_value()) {
      for (const int s : {model_.stitch_band->first - 1, model_.stitch_band->last}) {
        if (s < part_.first_stitch - 1 || s > part_.last_stitch) continue;
        const double x = left_ + (part_.last_stitch - s) * look_.cell;
        line(x, top_, x, bottom_);
      }
    }
    if (model_.row_band.has_value()) {
      for (const int r : {model_.row_band->first - 1, model_.row_band->last}) {
        if (r < part_.first_row - 1 || r > part_.last_row) continue;
        const double y = top_ + (part_.last_row - r) * look_.cell;
        line(left_, y, right_, y);
      }
    }
  }

  void Write(const std::string& text, double size, bool bold, Align align, double x,
             double middle) {
    TextStyle style;
    style.size = size;
    style.bold = bold;
    const Text set = typesetter_.Set(text, style);
    const double shift = align == Align::kRight    ? set.width()
                         : align == Align::kCentre ? set.width() / 2
                                                   : 0;
    set.Draw(cr_, x - shift, middle - set.height() / 2);
  }

  // Where labels would touch, only some rows of each edge get one.
  void PaintRowLabels() {
    double last[2] = {1e9, 1e9};
    for (const RowLabel& label : model_.labels) {
      if (label.chart_row < part_.first_row || label.chart_row > part_.last_row) continue;
      const double middle = Y(label.chart_row) + look_.cell / 2;
      double& previous = last[label.at_right ? 1 : 0];
      if (previous - middle < look_.font * 1.08) continue;
      previous = middle;
      PaintRowLabel(label, middle);
    }
  }

  void PaintRowLabel(const RowLabel& label, double middle) {
    const LabelPlaces places = PlacesOf(model_, look_);
    const double out = label.at_right ? 1 : -1;
    const double edge = label.at_right ? right_ : left_;
    const Align align = label.at_right ? Align::kLeft : Align::kRight;
    const bool b = label.colour == chart::Colour::kB;
    const Rgb ground = Ground(model_.shown, look_, b);
    const double size = places.chip_size * 0.92;
    const double near = edge + out * places.chip;
    cairo_rectangle(cr_, std::min(near, near + out * places.chip_size), middle - size / 2,
                    places.chip_size, size);
    SetColour(cr_, ground);
    cairo_fill_preserve(cr_);
    SetColour(cr_, kInk);
    cairo_set_line_width(cr_, look_.thin);
    cairo_stroke(cr_);
    SetColour(cr_, Contrasting(ground));
    Write(b ? "B" : "A", look_.font * 0.8, true, Align::kCentre, near + out * places.chip_size / 2,
          middle);
    SetColour(cr_, kInk);
    const double arrow = edge + out * places.arrow;
    PaintArrow(cr_, label.at_right ? arrow : arrow - 0.5 * look_.font, middle, look_.font * 0.5,
               label.at_right);
    Write(std::to_string(label.number), look_.font, true, align, edge + out * places.number,
          middle);
    Write(chart::Name(label.side), look_.font * 0.85, false, align, edge + out * places.side_name,
          middle);
  }

  void PaintStitchNumbers() {
    const double widest = kDigit * look_.font * Digits(model_.stitches) + 0.35 * look_.font;
    int step = 1;
    for (const int wider : {5, 10, 50, 100}) {
      if (widest > step * look_.cell) step = wider;
    }
    const double middle = bottom_ + 0.9 * look_.font;
    SetColour(cr_, kInk);
    for (int s = part_.first_stitch; s <= part_.last_stitch; ++s) {
      const bool end = s == part_.first_stitch || s == part_.last_stitch;
      if (!end && s % step != 0) continue;
      // The ends are numbered too, where a regular number does not stand too near.
      const int off = std::min(s % step, step - s % step);
      if (s % step != 0 && off * look_.cell < widest) continue;
      Write(std::to_string(s), look_.font, s % 10 == 0, Align::kCentre, X(s) + look_.cell / 2,
            middle);
    }
  }

  void PaintBrackets() {
    SetColour(cr_, kRepeat);
    const double tick = 0.45 * look_.font;
    const double line = 1.2 * look_.heavy;
    if (model_.stitch_band.has_value()) {
      const int first = std::max(model_.stitch_band->first, part_.first_stitch);
      const int last = std::min(model_.stitch_band->last, part_.last_stitch);
      if (first <= last) {
        const double y = bottom_ + 2.1 * look_.font;
        const double from = X(last);
        const double to = X(first) + look_.cell;
        HorizontalLine(y, from, to, line);
        if (last == model_.stitch_band->last) VerticalLine(from, y - tick, y, line);
        if (first == model_.stitch_band->first) VerticalLine(to, y - tick, y, line);
        cairo_fill(cr_);
        WriteRepeat((from + to) / 2, y + 0.8 * look_.font, false, to - from);
      }
    }
    if (model_.row_band.has_value()) {
      const int first = std::max(model_.row_band->first, part_.first_row);
      const int last = std::min(model_.row_band->last, part_.last_row);
      if (first <= last) {
        const double x = left_ - PlacesOf(model_, look_).end - 0.5 * look_.font;
        const double from = Y(last);
        const double to = Y(first) + look_.cell;
        VerticalLine(x, from, to, line);
        if (last == model_.row_band->last) HorizontalLine(from, x, x + tick, line);
        if (first == model_.row_band->first) HorizontalLine(to, x, x + tick, line);
        cairo_fill(cr_);
        WriteRepeat(x - 0.8 * look_.font, (from + to) / 2, true, to - from);
      }
    }
  }

  // The word beside a bracket, if the bracket is long enough to carry it; the key has the counts.
  void WriteRepeat(double x, double y, bool upright, double length) {
    TextStyle style;
    style.size = look_.font * 0.9;
    style.bold = true;
    const Text word = typesetter_.Set("repeat", style);
    if (word.width() > length) return;
    cairo_save(cr_);
    cairo_translate(cr_, x, y);
    if (upright) cairo_rotate(cr_, -M_PI / 2);
    word.Draw(cr_, -word.width() / 2, -word.height() / 2);
    cairo_restore(cr_);
  }

 public:
  static void AddWedge(cairo_t* cr, double x, double y, double cell, bool large) {
    const double side = large ? 0.10 : 0.27;
    const double up = large ? 0.12 : 0.24;
    const double down = large ? 0.92 : 0.74;
    cairo_move_to(cr, x + side * cell, y + up * cell);
    cairo_line_to(cr, x + (1 - side) * cell, y + up * cell);
    cairo_line_to(cr, x + 0.5 * cell, y + down * cell);
    cairo_close_path(cr);
  }

 private:
  cairo_t* cr_;
  const Typesetter& typesetter_;
  const ChartModel& model_;
  const ChartLook& look_;
  const ChartPart part_;
  const double left_;
  const double top_;
  const double right_;
  const double bottom_;
};

}  // namespace

ChartPart WholeChart(const ChartModel& model) { return {1, model.rows, 1, model.stitches}; }

ChartRoom RoomAround(const ChartModel& model, const ChartLook& look) {
  const double label = PlacesOf(model, look).end;
  const bool both = std::any_of(model.labels.begin(), model.labels.end(), [&](const auto& l) {
    return l.at_right != model.labels.front().at_right;
  });
  const bool right = both || model.labels.front().at_right;
  ChartRoom room;
  room.right = right ? label : look.font;
  room.left = both || !right ? label : look.font;
  // The bracket keeps its place beyond the labels' lane, whether that is used or not.
  if (model.row_band.has_value()) room.left = label + BracketLane(look);
  room.above = look.heavy;
  room.below = 1.7 * look.font + (model.stitch_band.has_value() ? 2 * look.font : 0);
  return room;
}

void PaintChart(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
                const ChartLook& look, const ChartPart& part, double x, double y) {
  Painter(cr, typesetter, model, look, part, x, y).Run();
}

void PaintCell(cairo_t* cr, chart::Convention shown, const ChartLook& look, CellKind kind, double x,
               double y) {
  const bool b = kind == CellKind::kB || kind == CellKind::kMarkOnB;
  const bool working = shown == chart::Convention::kWorking;
  cairo_rectangle(cr, x, y, look.cell, look.cell);
  SetColour(cr, Ground(shown, look, b));
  cairo_fill_preserve(cr);
  SetColour(cr, kInk);
  cairo_set_line_width(cr, look.thin * 1.5);
  cairo_stroke(cr);
  if (b && NeedsStroke(shown, look)) {
    cairo_move_to(cr, x, y + look.cell);
    cairo_line_to(cr, x + look.cell, y);
    SetColour(cr, Contrasting(Ground(shown, look, true)));
    cairo_set_line_width(cr, look.cell * 0.07);
    cairo_stroke(cr);
  }
  if (kind == CellKind::kA || kind == CellKind::kB) return;
  Painter::AddWedge(cr, x, y, look.cell, working);
  SetColour(cr, working ? kInk : Contrasting(Ground(shown, look, b)));
  cairo_fill(cr);
}

void PaintArrow(cairo_t* cr, double x, double middle, double size, bool to_the_left) {
  const double point = to_the_left ? x : x + size;
  const double back = to_the_left ? x + size : x;
  cairo_move_to(cr, point, middle);
  cairo_line_to(cr, back, middle - size / 2);
  cairo_line_to(cr, back, middle + size / 2);
  cairo_close_path(cr);
  cairo_fill(cr);
}

double Lightness(const Rgb& colour) {
  return 0.2126 * colour.red + 0.7152 * colour.green + 0.0722 * colour.blue;
}

Rgb Contrasting(const Rgb& ground) { return Lightness(ground) > 0.5 ? kInk : Rgb{1, 1, 1}; }

Rgb Ground(chart::Convention shown, const ChartLook& look, bool colour_b) {
  if (shown == chart::Convention::kWorking) return colour_b ? kTintB : kTintA;
  return colour_b ? look.colour_b : look.colour_a;
}

}  // namespace rowproof::drawing
