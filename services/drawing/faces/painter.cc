#include "services/drawing/faces/painter.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "services/drawing/charts/labels.h"

namespace rowproof::drawing {
namespace {

// Stitches of fewer pixels or points than this show nothing of their shape, and more of them than
// this take too long to draw or make a file too large.
constexpr double kLeastPixels = 5;
constexpr double kLeastPoints = 3;
constexpr int64_t kMostInPixels = 250'000;
constexpr int64_t kMostInLines = 60'000;
// DejaVu Sans: the advance of a digit in em (read from the font).
constexpr double kDigit = 0.637;

// The gap between stitches, a stitch, a free loop.
Rgb Shade(const Rgb& colour) { return Mixed(colour, kInk, 0.20); }
Rgb Bright(const Rgb& colour) { return Mixed(colour, kWhite, Lightness(colour) < 0.4 ? 0.14 : 0); }
Rgb Loop(const Rgb& colour) { return Mixed(colour, kWhite, Lightness(colour) < 0.4 ? 0.34 : 0.4); }
// Without stitches: rows with their wrong side towards the reader are slightly darker.
Rgb Flat(const Rgb& colour, bool front) { return front ? colour : Mixed(colour, kInk, 0.14); }

struct Box {
  double x;
  double y;
  double width;
  double height;
};

void Line(cairo_t* cr, const Box& box, double x1, double y1, double x2, double y2) {
  cairo_move_to(cr, box.x + x1 * box.width, box.y + y1 * box.height);
  cairo_line_to(cr, box.x + x2 * box.width, box.y + y2 * box.height);
}

// The same line at the other half of the stitch.
void Pair(cairo_t* cr, const Box& box, double x1, double y1, double x2, double y2) {
  Line(cr, box, x1, y1, x2, y2);
  Line(cr, box, 1 - x1, y1, 1 - x2, y2);
}

// The strands of one stitch, added to the path.
void AddStrands(cairo_t* cr, bool posts, StitchLook look, const Box& box) {
  switch (look) {
    case StitchLook::kFront:
      return Pair(cr, box, 0.19, 0.2, 0.42, 0.82);
    case StitchLook::kBack:
      Line(cr, box, 0.22, 0.34, 0.78, 0.34);
      return Line(cr, box, 0.38, 0.76, 0.62, 0.76);
    case StitchLook::kDropFront:
      if (!posts) return Pair(cr, box, 0.18, 0.17, 0.24, 1);
      Pair(cr, box, 0.17, 0.16, 0.42, 0.62);
      return Pair(cr, box, 0.42, 0.62, 0.42, 1);
    case StitchLook::kDropBack:
      Line(cr, box, 0.22, 0.3, 0.78, 0.3);
      return posts ? Pair(cr, box, 0.42, 0.4, 0.42, 1) : Pair(cr, box, 0.24, 0.4, 0.24, 1);
    case StitchLook::kLegs:
      return posts ? Pair(cr, box, 0.42, 0, 0.42, 1) : Pair(cr, box, 0.24, 0, 0.42, 0.84);
    case StitchLook::kChain:
      return;  // drawn by runs
  }
}

double StrandWidth(const Box& box) { return 0.26 * std::min(box.width, 1.2 * box.height); }

// n + 1 links over a run of n skipped stitches.
void AddChain(cairo_t* cr, const Box& run, int stitches) {
  const int links = stitches + 1;
  const double width = run.width / links;
  for (int i = 0; i < links; ++i) {
    cairo_save(cr);
    cairo_translate(cr, run.x + (i + 0.5) * width, run.y + 0.5 * run.height);
    cairo_scale(cr, 0.40 * width, 0.24 * run.height);
    cairo_new_sub_path(cr);
    cairo_arc(cr, 0, 0, 1, 0, 2 * M_PI);
    cairo_restore(cr);
  }
}

void Stroke(cairo_t* cr, const Rgb& colour, double width) {
  SetColour(cr, colour);
  cairo_set_line_width(cr, width);
  cairo_stroke(cr);
}

class FabricPainter {
 public:
  FabricPainter(cairo_t* cr, const Typesetter& typesetter, const FaceModel& model,
                const FaceLook& look, const ChartPart& part, double x, double y)
      : cr_(cr),
        typesetter_(typesetter),
        model_(model),
        look_(look),
        part_(part),
        left_(x),
        stitches_(ShowsStitches(model, look)) {
    std::array<bool, chart::kMostColours> used{};
    for (size_t i = model.At(part.first_row, 1); i < model.At(part.last_row + 1, 1); ++i) {
      used[model.colours[i]] = true;
    }
    for (size_t colour = 0; colour < used.size(); ++colour) {
      if (used[colour]) colours_.push_back(colour);
    }
    const std::vector<double> heights = model.Heights();
    const double top = heights[static_cast<size_t>(part.last_row)];
    for (const double height : heights) {
      const double edge = y + (top - height) * look.row;
      edges_.push_back(look.whole_pixels ? std::round(edge) : edge);
    }
  }

  void Run() {
    cairo_save(cr_);
    // A drop in the lowest row of a part continues in the row below, on another page.
    cairo_rectangle(cr_, left_, Top(part_.last_row), part_.stitches() * look_.cell,
                    Bottom(part_.first_row) - Top(part_.last_row));
    cairo_clip(cr_);
    PaintStrips();
    cairo_restore(cr_);
  }

  double Top(int strip) const { return edges_[static_cast<size_t>(strip)]; }
  double Bottom(int strip) const { return edges_[static_cast<size_t>(strip - 1)]; }
  // Left edge of a stitch: face 2 is seen from behind, stitch 1 at the left.
  double X(int stitch) const {
    return left_ + (model_.face == 1 ? part_.last_stitch - stitch : stitch - part_.first_stitch) *
                       look_.cell;
  }

 private:
  // Whether the drawing has to end before the next strip.
  bool Ends() const {
    constexpr int kStitchWork = 100;
    return typesetter_.StopAfter(kStitchWork * part_.stitches());
  }

  void PaintStrips() {
    for (int strip = part_.first_row; strip <= part_.last_row && !Ends(); ++strip) {
      PaintGround(strip);
    }
    if (!stitches_) return;
    cairo_set_line_cap(cr_, CAIRO_LINE_CAP_ROUND);
    for (int strip = part_.first_row; strip <= part_.last_row && !Ends(); ++strip) {
      for (const size_t colour : colours_) {
        PaintStrands(strip, colour);
        PaintChains(strip, colour);
        PaintLoops(strip, colour);
      }
    }
    cairo_set_line_cap(cr_, CAIRO_LINE_CAP_BUTT);
  }

  Box BoxOf(int strip, int stitch) const {
    return {X(stitch), Top(strip), look_.cell, Bottom(strip) - Top(strip)};
  }
  // Stitches first..last of one strip.
  Box RunOf(int strip, int first, int last) const {
    return {std::min(X(first), X(last)), Top(strip), (last - first + 1) * look_.cell,
            Bottom(strip) - Top(strip)};
  }

  template <typename Same, typename Use>
  void EachRun(Same same, Use use) const {
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch;) {
      int end = stitch;
      while (end + 1 <= part_.last_stitch && same(stitch, end + 1)) ++end;
      use(stitch, end);
      stitch = end + 1;
    }
  }

  void PaintGround(int strip) {
    const bool front = model_.strips[static_cast<size_t>(strip - 1)].front;
    EachRun([&](int a, int b) { return model_.colours[model_.At(strip, a)] == Colour(strip, b); },
            [&](int first, int last) {
              const Box run = RunOf(strip, first, last);
              const Rgb colour = look_.colours[Colour(strip, first)];
              cairo_rectangle(cr_, run.x, run.y, run.width, run.height);
              SetColour(cr_, stitches_ ? Shade(colour) : Flat(colour, front));
              cairo_fill(cr_);
            });
  }

  uint8_t Colour(int strip, int stitch) const { return model_.colours[model_.At(strip, stitch)]; }
  StitchLook Look(int strip, int stitch) const { return model_.looks[model_.At(strip, stitch)]; }

  void PaintStrands(int strip, size_t colour) {
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch; ++stitch) {
      if (Colour(strip, stitch) != colour) continue;
      AddStrands(cr_, model_.posts, Look(strip, stitch), BoxOf(strip, stitch));
    }
    Stroke(cr_, Bright(look_.colours[colour]), StrandWidth(BoxOf(strip, 1)));
  }

  void PaintChains(int strip, size_t colour) {
    const auto chain = [&](int stitch) {
      return Look(strip, stitch) == StitchLook::kChain && Colour(strip, stitch) == colour;
    };
    EachRun([&](int a, int b) { return chain(a) && chain(b); },
            [&](int first, int last) {
              if (!chain(first)) return;
              AddChain(cr_, RunOf(strip, first, last), last - first + 1);
            });
    Stroke(cr_, Bright(look_.colours[colour]), 0.7 * StrandWidth(BoxOf(strip, 1)));
  }

  // The loops left lying along the top of a row, but not under a drop.
  void PaintLoops(int strip, size_t colour) {
    if (!model_.strips[static_cast<size_t>(strip - 1)].free_loops) return;
    const double width = 0.5 * StrandWidth(BoxOf(strip, 1));
    for (int stitch = part_.first_stitch; stitch <= part_.last_stitch; ++stitch) {
      if (Colour(strip, stitch) != colour || Look(strip, stitch) == StitchLook::kLegs) continue;
      const double y = Top(strip) + 0.5 * width;
      cairo_move_to(cr_, X(stitch) + 0.14 * look_.cell, y);
      cairo_line_to(cr_, X(stitch) + 0.86 * look_.cell, y);
    }
    Stroke(cr_, Loop(look_.colours[colour]), width);
  }

  cairo_t* cr_;
  const Typesetter& typesetter_;
  const FaceModel& model_;
  const FaceLook& look_;
  const ChartPart part_;
  const double left_;
  const bool stitches_;
  std::vector<size_t> colours_;
  std::vector<double> edges_;  // the bottom, then the top of each strip
};

void Write(cairo_t* cr, const Typesetter& typesetter, const std::string& text, double size,
           Align align, double x, double middle) {
  TextStyle style;
  style.size = size;
  const Text set = typesetter.Set(text, style);
  const double shift = align == Align::kRight ? set.width() : set.width() / 2;
  set.Draw(cr, x - shift, middle - set.height() / 2);
}

int Digits(int number) { return static_cast<int>(std::to_string(number).size()); }

// Fives and tens at most: the fabric is looked at, not worked from.
int FaceStep(double pitch, double needed) { return std::max(5, LabelStep(pitch, needed)); }

}  // namespace

bool ShowsStitches(const FaceModel& model, const FaceLook& look) {
  const double least = look.whole_pixels ? kLeastPixels : kLeastPoints;
  const int64_t most = look.whole_pixels ? kMostInPixels : kMostInLines;
  return std::min(look.cell, look.row) >= least &&
         static_cast<int64_t>(model.colours.size()) <= most;
}

double FaceRoomLeft(const FaceModel& model, const FaceLook& look) {
  return look.font * (0.6 + kDigit * Digits(model.strips.back().number));
}

double FaceRoomBelow(const FaceLook& look) { return 1.7 * look.font; }

ChartPart WholeFace(const FaceModel& model) { return {1, model.rows(), 1, model.stitches}; }

void PaintFace(cairo_t* cr, const Typesetter& typesetter, const FaceModel& model,
               const FaceLook& look, const ChartPart& part, double x, double y) {
  FabricPainter painter(cr, typesetter, model, look, part, x, y);
  painter.Run();
  if (!typesetter.stop_status().ok()) return;
  SetColour(cr, kInk);
  const int row_step = FaceStep(look.row, 1.1 * look.font);
  for (int strip = part.first_row; strip <= part.last_row; ++strip) {
    const int number = model.strips[static_cast<size_t>(strip - 1)].number;
    const bool regular = number % row_step == 0;
    const bool room = (row_step - number % row_step) * look.row >= 1.1 * look.font;
    if (!regular && (strip != part.first_row || !room)) continue;
    Write(cr, typesetter, std::to_string(number), look.font, Align::kRight, x - 0.4 * look.font,
          (painter.Top(strip) + painter.Bottom(strip)) / 2);
  }
  const double widest = (kDigit * Digits(model.stitches) + 0.35) * look.font;
  const int step = FaceStep(look.cell, widest);
  for (int stitch = part.first_stitch; stitch <= part.last_stitch; ++stitch) {
    const bool regular = stitch % step == 0;
    const bool room = (step - stitch % step) * look.cell >= widest;
    if (!regular && (stitch != part.first_stitch || !room)) continue;
    Write(cr, typesetter, std::to_string(stitch), look.font, Align::kCentre,
          painter.X(stitch) + look.cell / 2, painter.Bottom(part.first_row) + 0.9 * look.font);
  }
}

void PaintStitch(cairo_t* cr, bool posts, const Rgb& colour, StitchLook stitch, double x, double y,
                 double side) {
  const Box box{x, y, side, side};
  cairo_rectangle(cr, x, y, side, side);
  SetColour(cr, Shade(colour));
  cairo_fill(cr);
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
  AddStrands(cr, posts, stitch, box);
  Stroke(cr, Bright(colour), StrandWidth(box));
  if (stitch == StitchLook::kChain) {
    AddChain(cr, box, 1);
    Stroke(cr, Bright(colour), 0.7 * StrandWidth(box));
  }
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_BUTT);
}

}  // namespace rowproof::drawing
