#include "services/drawing/page_plan.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/domain/check.h"

namespace rowproof::drawing {
namespace {

// Pages that hold `count` if each shares one with the next.
int PagesFor(int count, int per_page) {
  return count <= per_page ? 1 : (count - 2) / (per_page - 1) + 1;
}

// As many on each page as make the pages even.
int Evened(int count, int pages) { return (count + pages - 1 + pages - 1) / pages; }

}  // namespace

PagePlan EvenPlan(const ChartModel& model, double cell, int most_rows, int most_stitches) {
  ROWPROOF_CHECK(most_rows >= 2 && most_stitches >= 2);
  PagePlan plan;
  plan.cell = cell;
  plan.pages_down = PagesFor(model.rows, most_rows);
  plan.pages_across = PagesFor(model.stitches, most_stitches);
  plan.rows_per_page = Evened(model.rows, plan.pages_down);
  plan.stitches_per_page = Evened(model.stitches, plan.pages_across);
  return plan;
}

ChartPart PartOf(const PagePlan& plan, const ChartModel& model, int index) {
  const int down = index / plan.pages_across;
  const int across = index % plan.pages_across;
  ChartPart part;
  part.first_row = 1 + down * (plan.rows_per_page - 1);
  part.last_row = std::min(model.rows, part.first_row + plan.rows_per_page - 1);
  part.first_stitch = 1 + across * (plan.stitches_per_page - 1);
  part.last_stitch = std::min(model.stitches, part.first_stitch + plan.stitches_per_page - 1);
  return part;
}

std::string PlaceOf(const PagePlan& plan, int index) {
  return fmt::format("column {} of {} from the right, row {} of {} from the bottom",
                     index % plan.pages_across + 1, plan.pages_across,
                     index / plan.pages_across + 1, plan.pages_down);
}

std::string SharedWith(const PagePlan& plan, int index) {
  const int down = index / plan.pages_across;
  const int across = index % plan.pages_across;
  std::vector<std::pair<const char*, int>> shared;
  if (down > 0) shared.emplace_back("bottom row", index - plan.pages_across);
  if (across > 0) shared.emplace_back("right stitch", index - 1);
  if (across + 1 < plan.pages_across) shared.emplace_back("left stitch", index + 1);
  if (down + 1 < plan.pages_down) shared.emplace_back("top row", index + plan.pages_across);
  std::string text;
  for (const auto& [what, page] : shared) {
    text += fmt::format("{}{} also on page {}", text.empty() ? "Shared: " : ", ", what, page + 1);
  }
  return text.empty() ? text : text + ".";
}

void PaintPageMap(cairo_t* cr, const Typesetter& typesetter, const PagePlan& plan, int index,
                  double x, double y) {
  // Boxes in the proportions of the pages' parts, as far as the room allows.
  const double shape = static_cast<double>(plan.stitches_per_page) / plan.rows_per_page;
  const double high = std::min(kPageMapHeight / plan.pages_down, 16.0);
  const double wide =
      std::min({high * std::clamp(shape, 0.5, 2.5), kPageMapWidth / plan.pages_across, 24.0});
  const double right = x + kPageMapWidth;
  const double bottom = y + high * plan.pages_down;
  TextStyle style;
  style.size = std::clamp(std::min(high, wide) * 0.6, 1.0, 8.0);
  style.bold = true;
  // Numbers smaller than this cannot be read; the words beside the map have
  // them anyway.
  const bool numbered = style.size >= 4 && plan.pages() < 1000;
  for (int page = 0; page < plan.pages(); ++page) {
    const double left = right - (page % plan.pages_across + 1) * wide;
    const double top = bottom - (page / plan.pages_across + 1) * high;
    cairo_rectangle(cr, left, top, wide, high);
    SetColour(cr, page == index ? kInk : kWhite);
    cairo_fill_preserve(cr);
    SetColour(cr, kInk);
    cairo_set_line_width(cr, 0.5);
    cairo_stroke(cr);
    if (!numbered) continue;
    const Text number = typesetter.Set(std::to_string(page + 1), style);
    if (number.width() > wide - 1) continue;
    SetColour(cr, page == index ? kWhite : kInk);
    number.Draw(cr, left + (wide - number.width()) / 2, top + (high - number.height()) / 2);
  }
}

}  // namespace rowproof::drawing
