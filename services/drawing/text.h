// Setting text in the project's pinned fonts.
#ifndef ROWPROOF_SERVICES_DRAWING_TEXT_H_
#define ROWPROOF_SERVICES_DRAWING_TEXT_H_

#include <cairo.h>
#include <pango/pangocairo.h>

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/stop.h"
#include "services/drawing/paper.h"

namespace rowproof::drawing {

enum class Align : uint8_t { kLeft, kCentre, kRight };

struct TextStyle {
  double size = 9;  // em in user units (points on paper, pixels in a picture)
  bool bold = false;
  bool mono = false;
  Align align = Align::kLeft;
  double width = 0;          // lines are broken at this width; 0: never broken
  double hanging = 0;        // indent of every line but the first
  int most_lines = 0;        // the rest is cut and ends in an ellipsis; 0: no limit
  size_t bold_bytes = 0;     // this many bytes at the start are bold
  double line_height = 1.3;  // of the size
};

// Text broken into lines. Movable. Not thread-safe; dies before its Typesetter.
class Text {
 public:
  int line_count() const { return static_cast<int>(lines_.size()); }
  double line_height() const { return line_height_; }
  double height() const { return line_height_ * static_cast<double>(lines_.size()); }
  // Of the widest line.
  double width() const { return width_; }
  // Draws lines first..first+count-1 (from 0); (x, y) is the top left corner of the box of the
  // first of them, whose width is the style's.
  void DrawLines(cairo_t* cr, double x, double y, int first, int count) const;
  void Draw(cairo_t* cr, double x, double y) const { DrawLines(cr, x, y, 0, line_count()); }

 private:
  friend class Typesetter;
  struct Free {
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
  };
  struct Line {
    PangoLayoutLine* line;  // owned by its layout
    double x;
  };
  std::vector<std::unique_ptr<PangoLayout, Free>> layouts_;
  std::vector<Line> lines_;
  double line_height_ = 0;
  double baseline_ = 0;  // below the top of a line's box
  double width_ = 0;
};

// Makes Text. One a drawing, whose stop it has: whoever sets or paints with it asks it. Not
// thread-safe, but several threads may each have their own.
class Typesetter {
 public:
  // INTERNAL if a font file of DejaVu is missing. The stop outlives it; none: never.
  static absl::StatusOr<Typesetter> Open(const Stop* stop = nullptr);

  // Counts `work` units (services/domain/stop.h); whether the drawing has to end. It is then no
  // drawing, whatever is on it.
  template <typename Work>
  bool StopAfter(Work work) const {
    return stop_ != nullptr && stop_->After(work);
  }
  bool StopNow() const { return stop_ != nullptr && stop_->Now(); }
  // OK, or why the drawing had to end.
  absl::Status stop_status() const { return stop_ == nullptr ? absl::OkStatus() : stop_->status(); }

  // `text` is plain: markup means nothing, a line feed starts a new line, and Printable applies.
  // Time grows with the length of the text, whatever is in it. What is beyond kMostLines is left
  // out: it would fill more than kMostPages, and is refused for that. One empty line if the drawing
  // has to end.
  Text Set(const std::string& text, const TextStyle& style) const;

 private:
  void AddParagraph(const std::string& paragraph, const TextStyle& style, Text& made) const;

  struct Free {
    void operator()(void* object) const { g_object_unref(object); }
  };
  Typesetter() = default;
  const Stop* stop_ = nullptr;
  std::unique_ptr<PangoFontMap, Free> fonts_;
  std::unique_ptr<PangoContext, Free> context_;
};

inline constexpr size_t kMostLines = 40'000;

// Valid UTF-8 that Pango and cairo both accept: bytes that are not UTF-8 and noncharacters become
// U+FFFD, control characters other than a line feed become blanks.
std::string Printable(const std::string& text);

// Sets the source colour.
void SetColour(cairo_t* cr, const Rgb& colour);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_TEXT_H_
