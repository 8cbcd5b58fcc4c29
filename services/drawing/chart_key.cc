#include "services/drawing/chart_key.h"

#include <utility>

#include "fmt/format.h"

namespace rowproof::drawing {
namespace {

constexpr Rgb kInk{0.08, 0.09, 0.12};
constexpr Rgb kRepeat{0.70, 0.10, 0.10};

std::string Named(const char* letter, const std::string& name) {
  return name.empty() ? fmt::format("colour {}", letter)
                      : fmt::format("colour {}, {}", letter, name);
}

}  // namespace

ChartKey::ChartKey(const Typesetter& typesetter, const ChartModel& model, const ChartLook& look,
                   const ChartOptions& options, double font, double width)
    : typesetter_(typesetter), look_(look), font_(font), width_(width) {
  look_.cell = font * 1.15;
  look_.font = font;
  AddCells(model, options);
  AddRows(model);
}

void ChartKey::Add(const std::string& text, Swatch swatch) {
  TextStyle style;
  style.size = font_;
  style.width = width_ - 3.4 * font_;
  style.most_lines = 2;
  Text set = typesetter_.Set(text, style);
  const double height = set.height() + 0.3 * font_;
  entries_.push_back({std::move(swatch), std::move(set), height_});
  height_ += height;
}

void ChartKey::AddCells(const ChartModel& model, const ChartOptions& options) {
  const auto cells = [this, shown = model.shown](CellKind one, CellKind two) {
    return [this, shown, one, two](cairo_t* cr, double x, double y) {
      PaintCell(cr, shown, look_, one, x, y);
      if (two != one) PaintCell(cr, shown, look_, two, x + look_.cell * 1.25, y);
    };
  };
  const std::string a = Named("A", options.name_a);
  const std::string b = Named("B", options.name_b);
  if (model.shown == chart::Convention::kPicture) {
    Add("shows " + a, cells(CellKind::kA, CellKind::kA));
    Add("shows " + b, cells(CellKind::kB, CellKind::kB));
    Add("wedge: a drop stitch of the row above reaches down over this stitch",
        cells(CellKind::kMarkOnA, CellKind::kMarkOnB));
  } else {
    Add("plain stitch in " + a, cells(CellKind::kA, CellKind::kA));
    Add("plain stitch in " + b, cells(CellKind::kB, CellKind::kB));
    Add("wedge: drop stitch, worked in the row's colour",
        cells(CellKind::kMarkOnA, CellKind::kMarkOnB));
  }
}

void ChartKey::AddRows(const ChartModel& model) {
  Add(fmt::format("A row's number stands where the row starts, with its side and colour; read the "
                  "way the arrow points{}",
                  model.left_handed ? " (numbered for left-handed makers)" : ""),
      [this](cairo_t* cr, double x, double y) {
        SetColour(cr, kInk);
        PaintArrow(cr, x + 0.3 * font_, y + look_.cell / 2, font_ * 0.7, true);
        PaintArrow(cr, x + 1.5 * font_, y + look_.cell / 2, font_ * 0.7, false);
      });
  Add("Heavier lines stand after every tenth row and stitch",
      [this](cairo_t* cr, double x, double y) {
        SetColour(cr, kInk);
        cairo_rectangle(cr, x, y + look_.cell / 2 - look_.heavy / 2, 2.45 * font_, look_.heavy);
        cairo_fill(cr);
      });
  if (!model.stitch_band.has_value() && !model.row_band.has_value()) return;
  const auto broken_line = [this](cairo_t* cr, double x, double y) {
    const double dash = font_ * 0.35;
    cairo_set_dash(cr, &dash, 1, 0);
    cairo_set_line_width(cr, 1.6 * look_.heavy);
    SetColour(cr, kRepeat);
    cairo_move_to(cr, x, y + look_.cell / 2);
    cairo_line_to(cr, x + 2.45 * font_, y + look_.cell / 2);
    cairo_stroke(cr);
    cairo_set_dash(cr, nullptr, 0, 0);
  };
  std::string repeats = "repeat ";
  repeats += model.row_repeat;
  if (!model.row_repeat.empty() && !model.stitch_repeat.empty()) repeats += "; ";
  repeats += model.stitch_repeat;
  if (!model.sizes.empty()) repeats += "; sizes " + model.sizes;
  Add(repeats, broken_line);
  if (!model.row_repeat.empty()) {
    Add("The chart numbers each repeated row once; the written rows number it as it is worked.",
        [](cairo_t*, double, double) {});
  }
}

void ChartKey::Paint(cairo_t* cr, double x, double y) const {
  for (const Entry& entry : entries_) {
    const double top = y + entry.y;
    entry.swatch(cr, x, top);
    SetColour(cr, kInk);
    entry.text.Draw(cr, x + 3.4 * font_, top);
  }
}

}  // namespace rowproof::drawing
