// Fills pages from top to bottom with text and drawings; nothing ever leaves the page.
#ifndef ROWPROOF_SERVICES_DRAWING_FLOW_H_
#define ROWPROOF_SERVICES_DRAWING_FLOW_H_

#include <cairo.h>

#include <deque>
#include <functional>
#include <string>
#include <vector>

#include "services/drawing/paper.h"
#include "services/drawing/text.h"

namespace rowproof::drawing {

// Points (1/72 in). The margins hold the running header and the page number.
struct PageShape {
  double width = 0;
  double height = 0;
  double side_margin = 48;
  double top_margin = 58;
  double bottom_margin = 54;
  double content_width() const { return width - 2 * side_margin; }
  double content_height() const { return height - top_margin - bottom_margin; }
};
PageShape ShapeOf(Paper paper);

using Draw = std::function<void(cairo_t*)>;

struct OutlineEntry {
  std::string heading;
  int page = 0;  // from 1
};

// Not thread-safe. The typesetter outlives the flow.
class Flow {
 public:
  Flow(const Typesetter& typesetter, const PageShape& shape);

  const Typesetter& typesetter() const { return *typesetter_; }
  const PageShape& shape() const { return shape_; }
  double left() const { return shape_.side_margin; }
  double width() const { return shape_.content_width(); }
  double y() const { return y_; }
  double room() const { return shape_.height - shape_.bottom_margin - y_; }
  bool at_top() const { return y_ <= shape_.top_margin; }

  void NewPage();
  // Starts a new page if less than `height` is left.
  void Need(double height);
  // Leaves space, but none at the top of a page.
  void Gap(double height);
  // Goes down; the caller has drawn there.
  void Advance(double height) { y_ += height; }

  // The document's title, of two lines at most; nothing for an empty one.
  void Title(const std::string& title);
  // A heading that stays with at least `follows` of what follows; it gets an outline entry.
  void Section(const std::string& heading, double follows = 60);
  // A paragraph over the full width less `indent`; paragraphs break between lines, never leaving
  // one line of a longer paragraph alone, and those of up to four lines stay whole.
  void Paragraph(const std::string& text, TextStyle style, double indent = 0);
  // A paragraph behind a mark that hangs to its left.
  void Item(const std::string& mark, const std::string& text, const TextStyle& style,
            double indent);
  // A drawing of the full width: `draw` gets its top left corner. At most a page high.
  void Block(double height, const std::function<void(cairo_t*, double x, double y)>& draw);

  // Keeps a text for as long as the pages.
  const Text& Keep(Text text);
  // Adds to the present page.
  void Add(Draw draw);

  int page_count() const { return static_cast<int>(pages_.size()); }
  void Paint(int page, cairo_t* cr) const;  // from 1
  const std::vector<OutlineEntry>& outline() const { return outline_; }
  // True once kMostPages were full; nothing is added from then on. Nor if the drawing has to end.
  bool over_limit() const { return over_limit_ || !typesetter_->stop_status().ok(); }

 private:
  // How many lines of a paragraph, from `next` on, go to this page; 0: start a new one first.
  int LinesHere(const Text& text, int next) const;
  void PlaceLines(const Text& text, double x);

  const Typesetter* typesetter_;
  PageShape shape_;
  double y_;
  bool over_limit_ = false;
  std::deque<Text> texts_;
  std::vector<std::vector<Draw>> pages_;
  std::vector<OutlineEntry> outline_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_FLOW_H_
