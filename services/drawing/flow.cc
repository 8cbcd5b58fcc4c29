#include "services/drawing/flow.h"

#include <algorithm>
#include <utility>

#include "services/domain/check.h"
#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

constexpr int kKeptWhole = 4;  // lines
constexpr double kSlack = 1e-6;

int LinesThatFit(double room, const Text& text) {
  return std::max(0, static_cast<int>((room + kSlack) / text.line_height()));
}

}  // namespace

PageShape ShapeOf(Paper paper) {
  PageShape shape;
  shape.width = paper == Paper::kA4 ? 210 * kPointsPerMm : 612;
  shape.height = paper == Paper::kA4 ? 297 * kPointsPerMm : 792;
  return shape;
}

Flow::Flow(const Typesetter& typesetter, const PageShape& shape)
    : typesetter_(&typesetter), shape_(shape), y_(shape.top_margin), pages_(1) {}

void Flow::NewPage() {
  y_ = shape_.top_margin;
  if (page_count() >= kMostPages) {
    over_limit_ = true;
    return;
  }
  pages_.emplace_back();
}

void Flow::Need(double height) {
  if (room() + kSlack < height && !at_top()) NewPage();
}

void Flow::Gap(double height) {
  if (!at_top()) y_ += std::min(height, std::max(room(), 0.0));
}

void Flow::Add(Draw draw) {
  if (!over_limit_) pages_.back().push_back(std::move(draw));
}

const Text& Flow::Keep(Text text) {
  texts_.push_back(std::move(text));
  return texts_.back();
}

void Flow::Paint(int page, cairo_t* cr) const {
  for (const Draw& draw : pages_[static_cast<size_t>(page - 1)]) {
    cairo_save(cr);
    draw(cr);
    cairo_restore(cr);
  }
}

void Flow::Title(const std::string& title) {
  if (title.empty()) return;
  TextStyle style;
  style.size = 16;
  style.bold = true;
  style.most_lines = 2;
  Paragraph(title, style);
}

void Flow::Section(const std::string& heading, double follows) {
  TextStyle style;
  style.size = 12;
  style.bold = true;
  style.width = width();
  const Text& text = Keep(typesetter_->Set(heading, style));
  Gap(14);
  Need(std::min(text.height() + 6 + follows, shape_.content_height()));
  outline_.push_back({heading, page_count()});
  PlaceLines(text, left());
  const double rule = y_ + 1;
  Add([=, x = left(), w = width()](cairo_t* cr) {
    SetColour(cr, kInk);
    cairo_rectangle(cr, x, rule, w, 0.8);
    cairo_fill(cr);
  });
  y_ += 7;
}

int Flow::LinesHere(const Text& text, int next) const {
  const int left = text.line_count() - next;
  int fit = std::min(left, LinesThatFit(room(), text));
  if (fit == left) return fit;
  // Neither the first nor the last line of a paragraph is left alone on a page.
  if (left - fit == 1) --fit;
  const bool too_few = fit < 2 || left <= kKeptWhole;
  if (too_few && !at_top()) return 0;
  return std::max(fit, 1);
}

void Flow::PlaceLines(const Text& text, double x) {
  int next = 0;
  while (next < text.line_count() && !over_limit()) {
    const int fit = LinesHere(text, next);
    if (fit > 0) {
      Add([&text, x, y = y_, next, fit](cairo_t* cr) {
        SetColour(cr, kInk);
        text.DrawLines(cr, x, y, next, fit);
      });
      y_ += fit * text.line_height();
      next += fit;
    }
    if (next < text.line_count()) NewPage();
  }
}

void Flow::Paragraph(const std::string& text, TextStyle style, double indent) {
  if (over_limit()) return;
  style.width = width() - indent;
  PlaceLines(Keep(typesetter_->Set(text, style)), left() + indent);
}

void Flow::Item(const std::string& mark, const std::string& text, const TextStyle& style,
                double indent) {
  if (over_limit()) return;
  TextStyle body = style;
  body.width = width() - indent;
  const Text& set = Keep(typesetter_->Set(text, body));
  TextStyle mark_style = style;
  mark_style.bold_bytes = 0;
  const Text& hung = Keep(typesetter_->Set(mark, mark_style));
  if (LinesHere(set, 0) == 0) NewPage();
  Add([&hung, x = left(), y = y_](cairo_t* cr) {
    SetColour(cr, kInk);
    hung.Draw(cr, x, y);
  });
  PlaceLines(set, left() + indent);
}

void Flow::Block(double height, const std::function<void(cairo_t*, double x, double y)>& draw) {
  ROWPROOF_CHECK(height <= shape_.content_height() + kSlack);
  Need(height);
  Add([draw, x = left(), y = y_](cairo_t* cr) { draw(cr, x, y); });
  y_ += height;
}

}  // namespace rowproof::drawing
