#include "services/drawing/charts/page_plan.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

// Pages that hold `count` if each shares one with the next.
int PagesFor(int count, int per_page) {
  return count <= per_page ? 1 : (count - 2) / (per_page - 1) + 1;
}

// As many on each page as make the pages even.
int Evened(int count, int pages) { return (count + pages - 1 + pages - 1) / pages; }

}  // namespace

PagePlan EvenPlan(int rows, int stitches, double cell, int most_rows, int most_stitches) {
  ROWPROOF_CHECK(most_rows >= 2 && most_stitches >= 2);
  PagePlan plan;
  plan.rows = rows;
  plan.stitches = stitches;
  plan.cell = cell;
  plan.pages_down = PagesFor(rows, most_rows);
  plan.pages_across = PagesFor(stitches, most_stitches);
  plan.rows_per_page = Evened(rows, plan.pages_down);
  plan.stitches_per_page = Evened(stitches, plan.pages_across);
  return plan;
}

ChartPart PartOf(const PagePlan& plan, int index) {
  const int down = index / plan.pages_across;
  const int across = index % plan.pages_across;
  ChartPart part;
  part.first_row = 1 + down * (plan.rows_per_page - 1);
  part.last_row = std::min(plan.rows, part.first_row + plan.rows_per_page - 1);
  part.first_stitch = 1 + across * (plan.stitches_per_page - 1);
  part.last_stitch = std::min(plan.stitches, part.first_stitch + plan.stitches_per_page - 1);
  return part;
}

std::string PlaceOf(const PagePlan& plan, int index) {
  return fmt::format("column {} of {} from the {}, row {} of {} from the bottom",
                     index % plan.pages_across + 1, plan.pages_across,
                     plan.stitch_one_left ? "left" : "right", index / plan.pages_across + 1,
                     plan.pages_down);
}

std::string SharedWith(const PagePlan& plan, int index) {
  const int down = index / plan.pages_across;
  const int across = index % plan.pages_across;
  std::vector<std::pair<const char*, int>> shared;
  if (down > 0) shared.emplace_back("bottom row", index - plan.pages_across);
  const char* const before = plan.stitch_one_left ? "left stitch" : "right stitch";
  const char* const after = plan.stitch_one_left ? "right stitch" : "left stitch";
  if (across > 0) shared.emplace_back(before, index - 1);
  if (across + 1 < plan.pages_across) shared.emplace_back(after, index + 1);
  if (down + 1 < plan.pages_down) shared.emplace_back("top row", index + plan.pages_across);
  std::string text;
  for (const auto& [what, page] : shared) {
    text += fmt::format("{}{} also on page {}", text.empty() ? "Shared: " : ", ", what, page + 1);
  }
  return text.empty() ? text : text + ".";
}

void PaintPageNumbers(cairo_t* cr, const Typesetter& typesetter, const PagePlan& plan, double x,
                      double y, double stitch_width,
                      const std::function<double(int rows)>& height_to) {
  for (int index = 0; index < plan.pages(); ++index) {
    const ChartPart part = PartOf(plan, index);
    const int before =
        plan.stitch_one_left ? part.first_stitch - 1 : plan.stitches - part.last_stitch;
    const double left = x + before * stitch_width;
    const double top = y + height_to(plan.rows) - height_to(part.last_row);
    const double width = part.stitches() * stitch_width;
    const double height = height_to(part.last_row) - height_to(part.first_row - 1);
    cairo_rectangle(cr, left, top, width, height);
    SetColour(cr, {1, 1, 1});
    cairo_set_line_width(cr, 2.4);
    cairo_stroke_preserve(cr);
    SetColour(cr, kInk);
    cairo_set_line_width(cr, 1);
    cairo_stroke(cr);
    TextStyle style;
    style.size = std::clamp(std::min(width, height) * 0.45, 4.0, 14.0);
    style.bold = true;
    const Text number = typesetter.Set(std::to_string(index + 1), style);
    const double middle_x = left + width / 2;
    const double middle_y = top + height / 2;
    cairo_rectangle(cr, middle_x - number.width() / 2 - 0.3 * style.size,
                    middle_y - number.height() / 2, number.width() + 0.6 * style.size,
                    number.height());
    SetColour(cr, {1, 1, 1});
    cairo_fill(cr);
    SetColour(cr, kInk);
    number.Draw(cr, middle_x - number.width() / 2, middle_y - number.height() / 2);
  }
}

void AddPartHeading(Flow& flow, const PagePlan& plan, int index, const std::string& heading) {
  const Typesetter& typesetter = flow.typesetter();
  TextStyle style;
  style.size = 8.5;
  style.bold = true;
  style.width = flow.width() - kPageMapWidth;
  style.most_lines = 1;
  const Text& title = flow.Keep(typesetter.Set(heading, style));
  style.size = 7.5;
  style.bold = false;
  const Text& place = flow.Keep(
      typesetter.Set(fmt::format("Page {} is {}.", index + 1, PlaceOf(plan, index)), style));
  const Text& shared = flow.Keep(typesetter.Set(SharedWith(plan, index), style));
  const double map = flow.width() - kPageMapWidth;
  flow.Block(kPartHeading,
             [=, &typesetter, &title, &place, &shared](cairo_t* cr, double x, double y) {
               SetColour(cr, kInk);
               title.Draw(cr, x, y);
               place.Draw(cr, x, y + title.height());
               shared.Draw(cr, x, y + title.height() + place.height());
               PaintPageMap(cr, typesetter, plan, index, x + map, y);
             });
}

void PaintPageMap(cairo_t* cr, const Typesetter& typesetter, const PagePlan& plan, int index,
                  double x, double y) {
  // Boxes in the proportions of the pages' parts, as far as there is room; those of many pages are
  // wide enough to be distinguished, with thin lines.
  constexpr double kLeastWidth = 4;
  const double shape = static_cast<double>(plan.stitches_per_page) / plan.rows_per_page;
  const double high = std::min(kPageMapHeight / plan.pages_down, 16.0);
  const double wide = std::min({std::max(high * std::clamp(shape, 0.5, 2.5), kLeastWidth),
                                kPageMapWidth / plan.pages_across, 24.0});
  const double line = std::min(0.5, 0.1 * std::min(high, wide));
  const double right = x + kPageMapWidth;
  const double bottom = y + high * plan.pages_down;
  TextStyle style;
  style.size = std::clamp(std::min(high, wide) * 0.6, 1.0, 8.0);
  style.bold = true;
  // Numbers smaller than this cannot be read; the words next to the map have them anyway.
  const bool numbered = style.size >= 4 && plan.pages() < 1000;
  for (int page = 0; page < plan.pages(); ++page) {
    const int column = page % plan.pages_across;
    const int from_right = plan.stitch_one_left ? plan.pages_across - column : column + 1;
    const double left = right - from_right * wide;
    const int from_bottom = page / plan.pages_across + 1;
    const double top = bottom - from_bottom * high;
    cairo_rectangle(cr, left, top, wide, high);
    SetColour(cr, page == index ? kInk : kWhite);
    cairo_fill_preserve(cr);
    SetColour(cr, kInk);
    cairo_set_line_width(cr, line);
    cairo_stroke(cr);
    if (!numbered) continue;
    const Text number = typesetter.Set(std::to_string(page + 1), style);
    if (number.width() > wide - 1) continue;
    SetColour(cr, page == index ? kWhite : kInk);
    number.Draw(cr, left + (wide - number.width()) / 2, top + (high - number.height()) / 2);
  }
}

}  // namespace rowproof::drawing
