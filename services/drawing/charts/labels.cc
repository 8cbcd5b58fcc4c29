#include "services/drawing/charts/labels.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rowproof::drawing {
namespace {

// DejaVu Sans: the advance of a bold digit, and of "WS", in em (read from the font).
constexpr double kBoldDigit = 0.696;
constexpr double kSideName = 1.65;
// Height that a line of labels needs, in em.
constexpr double kLabelPitch = 1.08;

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
  places.side_name = places.number + kBoldDigit * em * Digits(model.highest_number) + 0.3 * em;
  places.end = places.side_name + kSideName * em;
  return places;
}

// Lane of the bracket beyond the labels, with its word.
double BracketLane(const ChartLook& look) { return 2.2 * look.font; }

class LabelPainter {
 public:
  LabelPainter(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
               const ChartLook& look, const ChartFrame& frame)
      : cr_(cr),
        typesetter_(typesetter),
        model_(model),
        look_(look),
        frame_(frame),
        part_(frame.part) {}

  void Run() {
    PaintRowLabels();
    PaintFoundationLabel();
    PaintStitchNumbers();
    PaintStitchBracket();
    PaintRowBracket();
  }

 private:
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

  // Rows of which each edge has room for the label: all, or those whose number
  // a round step divides.
  int RowStep() const {
    for (const int step : {1, 5, 25, 50, 100, 500}) {
      int last[2] = {0, 0};
      bool fit = true;
      for (const RowLabel& label : model_.labels) {
        if (label.number % step != 0) continue;
        int& previous = last[label.at_right ? 1 : 0];
        const int apart = label.chart_row - previous;
        fit = fit && (previous == 0 || apart * look_.cell >= kLabelPitch * look_.font);
        previous = label.chart_row;
      }
      if (fit) return step;
    }
    return 1000;
  }

  void PaintRowLabels() {
    const int step = RowStep();
    for (const RowLabel& label : model_.labels) {
      if (label.chart_row < part_.first_row || label.chart_row > part_.last_row) continue;
      if (label.number % step != 0 && model_.rows > 1) continue;
      PaintRowLabel(label, frame_.Y(label.chart_row) + look_.cell / 2);
    }
  }

  void PaintRowLabel(const RowLabel& label, double middle) {
    const LabelPlaces places = PlacesOf(model_, look_);
    const double out = label.at_right ? 1 : -1;
    const double edge = EdgeOf(label);
    const Align align = label.at_right ? Align::kLeft : Align::kRight;
    PaintChip(label, label.colour, middle);
    const double arrow = edge + out * places.arrow;
    PaintArrow(cr_, label.at_right ? arrow : arrow - 0.5 * look_.font, middle, look_.font * 0.5,
               label.at_right);
    Write(std::to_string(label.number), look_.font, true, align, edge + out * places.number,
          middle);
    Write(chart::Name(label.side), look_.font * 0.85, false, align, edge + out * places.side_name,
          middle);
  }

  // Next to row 1's label, without side and direction: a chart does not say how row 0 is worked.
  void PaintFoundationLabel() {
    if (frame_.foundation == 0) return;
    const LabelPlaces places = PlacesOf(model_, look_);
    const RowLabel& first = model_.labels.front();
    const double middle = frame_.bottom() + frame_.foundation / 2;
    PaintChip(first, *model_.foundation, middle);
    Write(std::to_string(model_.foundation_number), look_.font, true,
          first.at_right ? Align::kLeft : Align::kRight,
          EdgeOf(first) + (first.at_right ? 1 : -1) * places.number, middle);
  }

  double EdgeOf(const RowLabel& label) const {
    return label.at_right ? frame_.right() : frame_.left;
  }

  // The colour's letter on its ground, at the edge of a label.
  void PaintChip(const RowLabel& label, size_t colour, double middle) {
    const LabelPlaces places = PlacesOf(model_, look_);
    const double out = label.at_right ? 1 : -1;
    const Rgb ground = look_.grounds[colour];
    const double size = places.chip_size * 0.92;
    const double near = EdgeOf(label) + out * places.chip;
    cairo_rectangle(cr_, std::min(near, near + out * places.chip_size), middle - size / 2,
                    places.chip_size, size);
    SetColour(cr_, ground);
    cairo_fill_preserve(cr_);
    SetColour(cr_, kInk);
    cairo_set_line_width(cr_, look_.thin);
    cairo_stroke(cr_);
    SetColour(cr_, Contrasting(ground));
    Write(LetterOf(colour), look_.font * 0.8, true, Align::kCentre,
          near + out * places.chip_size / 2, middle);
    SetColour(cr_, kInk);
  }

  void PaintStitchNumbers() {
    const double widest = kBoldDigit * look_.font * Digits(model_.stitches) + 0.35 * look_.font;
    const int step = LabelStep(look_.cell, widest);
    const double middle = frame_.foot() + 0.9 * look_.font;
    SetColour(cr_, kInk);
    for (int s = part_.first_stitch; s <= part_.last_stitch; ++s) {
      const bool end = s == part_.first_stitch || s == part_.last_stitch;
      if (!end && s % step != 0) continue;
      // The ends are numbered too, unless a regular number is too near.
      const int off = std::min(s % step, step - s % step);
      if (s % step != 0 && off * look_.cell < widest) continue;
      Write(std::to_string(s), look_.font, s % 10 == 0, Align::kCentre,
            frame_.X(s) + look_.cell / 2, middle);
    }
  }

  void PaintStitchBracket() {
    if (!model_.stitch_band.has_value()) return;
    const int first = std::max(model_.stitch_band->first, part_.first_stitch);
    const int last = std::min(model_.stitch_band->last, part_.last_stitch);
    if (first > last) return;
    const double tick = 0.45 * look_.font;
    const double line = 1.2 * look_.heavy;
    const double y = frame_.foot() + 2.1 * look_.font;
    const double from = frame_.X(last);
    const double to = frame_.X(first) + look_.cell;
    AddHorizontalLine(cr_, look_, y, from, to, line);
    if (last == model_.stitch_band->last) AddVerticalLine(cr_, look_, from, y - tick, y, line);
    if (first == model_.stitch_band->first) AddVerticalLine(cr_, look_, to, y - tick, y, line);
    SetColour(cr_, kRepeat);
    cairo_fill(cr_);
    WriteRepeat(model_.stitch_times, (from + to) / 2, y + 0.8 * look_.font, false, to - from);
  }

  void PaintRowBracket() {
    if (!model_.row_band.has_value()) return;
    const int first = std::max(model_.row_band->first, part_.first_row);
    const int last = std::min(model_.row_band->last, part_.last_row);
    if (first > last) return;
    const double tick = 0.45 * look_.font;
    const double line = 1.2 * look_.heavy;
    const double x = frame_.left - PlacesOf(model_, look_).end - 0.5 * look_.font;
    const double from = frame_.Y(last);
    const double to = frame_.Y(first) + look_.cell;
    AddVerticalLine(cr_, look_, x, from, to, line);
    if (last == model_.row_band->last) AddHorizontalLine(cr_, look_, from, x, x + tick, line);
    if (first == model_.row_band->first) AddHorizontalLine(cr_, look_, to, x, x + tick, line);
    SetColour(cr_, kRepeat);
    cairo_fill(cr_);
    WriteRepeat(model_.row_times, x - 0.8 * look_.font, (from + to) / 2, true, to - from);
  }

  // The longest words that the bracket is long enough to carry; the key has the counts too.
  void WriteRepeat(const std::string& times, double x, double y, bool upright, double length) {
    TextStyle style;
    style.size = look_.font * 0.9;
    style.bold = true;
    for (const std::string& text : {"repeat " + times, times, std::string("repeat")}) {
      const Text word = typesetter_.Set(text, style);
      if (word.width() > length) continue;
      cairo_save(cr_);
      cairo_translate(cr_, x, y);
      if (upright) cairo_rotate(cr_, -M_PI / 2);
      word.Draw(cr_, -word.width() / 2, -word.height() / 2);
      cairo_restore(cr_);
      return;
    }
  }

  cairo_t* cr_;
  const Typesetter& typesetter_;
  const ChartModel& model_;
  const ChartLook& look_;
  const ChartFrame& frame_;
  const ChartPart part_;
};

}  // namespace

ChartRoom RoomAround(const ChartModel& model, const ChartLook& look) {
  const double label = PlacesOf(model, look).end;
  const bool both = std::any_of(model.labels.begin(), model.labels.end(), [&](const auto& l) {
    return l.at_right != model.labels.front().at_right;
  });
  const bool right = both || model.labels.front().at_right;
  ChartRoom room;
  room.right = right ? label : look.font;
  room.left = both || !right ? label : look.font;
  // The bracket keeps its place beyond the labels' lane, whether that is used
  // or not.
  if (model.row_band.has_value()) room.left = label + BracketLane(look);
  room.above = look.heavy;
  room.below = FoundationHeight(model, look) + 1.7 * look.font +
               (model.stitch_band.has_value() ? 2 * look.font : 0);
  return room;
}

void PaintLabels(cairo_t* cr, const Typesetter& typesetter, const ChartModel& model,
                 const ChartLook& look, const ChartFrame& frame) {
  LabelPainter(cr, typesetter, model, look, frame).Run();
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

int LabelStep(double pitch, double needed) {
  for (const int step : {1, 5, 10, 50, 100, 500}) {
    if (needed <= step * pitch) return step;
  }
  return 1000;
}

}  // namespace rowproof::drawing
