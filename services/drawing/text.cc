#include "services/drawing/text.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangofc-fontmap.h>

#include <algorithm>

#include "services/domain/errors.h"
#include "services/text/utf8.h"

namespace rowproof::drawing {
namespace {

// Part of Debian's fonts-dejavu-core; nothing else may ever be chosen, or the same sheet would
// differ from machine to machine.
constexpr const char* kFontFiles[] = {
    "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf",
    "/usr/share/fonts/truetype/dejavu/DejaVuSansMono.ttf",
    "/usr/share/fonts/truetype/dejavu/DejaVuSansMono-Bold.ttf",
};

FcConfig* LoadFonts() {
  FcConfig* config = FcConfigCreate();
  for (const char* file : kFontFiles) {
    if (FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(file)) == FcFalse) {
      FcConfigDestroy(config);
      return nullptr;
    }
  }
  return config;
}

// Scanning the files takes tens of milliseconds, so it is done once; a finished FcConfig is only
// read, which fontconfig allows from several threads.
FcConfig* PinnedFonts() {
  static FcConfig* const kConfig = LoadFonts();
  return kConfig;
}

// A paragraph is broken into lines this much at a time: Pango's time for one piece grows with the
// square of its length if it cannot break between words.
constexpr size_t kPieceBytes = 3000;

size_t PieceEnd(const std::string& text, size_t start) {
  return start + text::FirstBytes(std::string_view(text).substr(start), kPieceBytes).size();
}

int ToPango(double length) { return static_cast<int>(length * PANGO_SCALE); }
double FromPango(int length) { return static_cast<double>(length) / PANGO_SCALE; }

PangoAttrList* Attributes(const TextStyle& style) {
  PangoAttrList* list = pango_attr_list_new();
  // Otherwise a long word is broken with a hyphen that is not in the text, and two letters may be
  // one glyph, which not every PDF reader separates again.
  pango_attr_list_insert(list, pango_attr_insert_hyphens_new(FALSE));
  pango_attr_list_insert(list, pango_attr_font_features_new("liga=0, clig=0, dlig=0"));
  if (style.bold_bytes > 0) {
    PangoAttribute* bold = pango_attr_weight_new(PANGO_WEIGHT_BOLD);
    bold->start_index = 0;
    bold->end_index = static_cast<guint>(style.bold_bytes);
    pango_attr_list_insert(list, bold);
  }
  return list;
}

PangoAlignment Alignment(Align align) {
  switch (align) {
    case Align::kLeft:
      return PANGO_ALIGN_LEFT;
    case Align::kCentre:
      return PANGO_ALIGN_CENTER;
    case Align::kRight:
      return PANGO_ALIGN_RIGHT;
  }
  return PANGO_ALIGN_LEFT;
}

void Style(PangoLayout* layout, const TextStyle& style) {
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family_static(font, style.mono ? "DejaVu Sans Mono" : "DejaVu Sans");
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font, style.size * PANGO_SCALE);
  pango_layout_set_font_description(layout, font);
  pango_font_description_free(font);
  PangoAttrList* attributes = Attributes(style);
  pango_layout_set_attributes(layout, attributes);
  pango_attr_list_unref(attributes);
  pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(layout, Alignment(style.align));
  // The sheets are English: a line in another script keeps its own order, but starts at the left.
  pango_layout_set_auto_dir(layout, FALSE);
  if (style.width > 0) pango_layout_set_width(layout, ToPango(style.width));
  if (style.hanging > 0) pango_layout_set_indent(layout, -ToPango(style.hanging));
  if (style.most_lines > 0) {
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    pango_layout_set_height(layout, -style.most_lines);
  }
}

}  // namespace

void Text::DrawLines(cairo_t* cr, double x, double y, int first, int count) const {
  for (int i = 0; i < count; ++i) {
    const Line& line = lines_[static_cast<size_t>(first) + static_cast<size_t>(i)];
    cairo_move_to(cr, x + line.x, y + baseline_ + static_cast<double>(i) * line_height_);
    pango_cairo_show_layout_line(cr, line.line);
  }
}

absl::StatusOr<Typesetter> Typesetter::Open(const Stop* stop) {
  FcConfig* pinned = PinnedFonts();
  if (pinned == nullptr) return Internal("drawing: DejaVu fonts (fonts-dejavu-core) are missing");
  Typesetter made;
  made.stop_ = stop;
  made.fonts_.reset(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT));
  if (made.fonts_ == nullptr) return Internal("drawing: Pango has no FreeType fonts");
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(made.fonts_.get()), pinned);
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(made.fonts_.get()), 72);
  made.context_.reset(pango_font_map_create_context(made.fonts_.get()));
  pango_context_set_language(made.context_.get(), pango_language_from_string("en"));
  pango_context_set_round_glyph_positions(made.context_.get(), FALSE);
  // Lines must break alike on paper and in a picture, whatever the surface prefers.
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(made.context_.get(), options);
  cairo_font_options_destroy(options);
  return made;
}

Text Typesetter::Set(const std::string& text, const TextStyle& style) const {
  Text made;
  // Every line has one height, also if a fallback glyph would stretch it: pages stay even.
  made.line_height_ = style.size * style.line_height;
  made.baseline_ = style.size * (style.line_height * 0.5 + 0.34);
  // Pango takes about a microsecond for a byte, and more for each text.
  constexpr size_t kByteWork = 100;
  const bool ends = StopAfter(kByteWork * (text.size() + kByteWork));
  const std::string printable = ends ? "" : Printable(text);
  size_t start = 0;
  while (made.lines_.size() < kMostLines) {
    const size_t feed = style.most_lines > 0 ? std::string::npos : printable.find('\n', start);
    AddParagraph(printable.substr(start, feed == std::string::npos ? feed : feed - start), style,
                 made);
    if (feed == std::string::npos) break;
    start = feed + 1;
  }
  return made;
}

void Typesetter::AddParagraph(const std::string& paragraph, const TextStyle& style,
                              Text& made) const {
  size_t start = 0;
  do {
    const bool cut = style.most_lines > 0 || style.width <= 0;
    const size_t end = cut ? paragraph.size() : PieceEnd(paragraph, start);
    made.layouts_.emplace_back(pango_layout_new(context_.get()));
    PangoLayout* layout = made.layouts_.back().get();
    TextStyle piece = style;
    // Pango must not be given half a character.
    piece.bold_bytes = text::FirstBytes(paragraph, style.bold_bytes).size();
    double indent = 0;
    if (start > 0) {
      // Every line of a later piece hangs.
      piece.bold_bytes = 0;
      piece.hanging = 0;
      piece.width -= style.hanging;
      indent = style.hanging;
    }
    Style(layout, piece);
    pango_layout_set_text(layout, paragraph.data() + start, static_cast<int>(end - start));
    size_t next = end;
    const int count = pango_layout_get_line_count(layout);
    PangoLayoutIter* iter = pango_layout_get_iter(layout);
    for (int i = 0; i < count; ++i, pango_layout_iter_next_line(iter)) {
      PangoLayoutLine* line = pango_layout_iter_get_line_readonly(iter);
      if (i > 0 && i == count - 1 && end < paragraph.size()) {
        // The last line may have room for more: it starts the next piece.
        next = start + static_cast<size_t>(line->start_index);
        break;
      }
      PangoRectangle logical;
      pango_layout_iter_get_line_extents(iter, nullptr, &logical);
      made.lines_.push_back({line, FromPango(logical.x) + indent});
      made.width_ = std::max(made.width_, FromPango(logical.x + logical.width) + indent);
    }
    pango_layout_iter_free(iter);
    start = next;
  } while (start < paragraph.size() && made.lines_.size() < kMostLines);
}

std::string Printable(const std::string& text) {
  char* valid = g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()));
  std::string printable;
  printable.reserve(text.size());
  for (const char* at = valid; *at != '\0'; at = g_utf8_next_char(at)) {
    const gunichar c = g_utf8_get_char(at);
    const bool noncharacter = (c & 0xfffe) == 0xfffe || (c >= 0xfdd0 && c <= 0xfdef);
    if (noncharacter) {
      printable += "\xef\xbf\xbd";
    } else if (c != '\n' && g_unichar_iscntrl(c)) {
      printable += ' ';
    } else {
      printable.append(at, static_cast<size_t>(g_utf8_next_char(at) - at));
    }
  }
  g_free(valid);
  return printable;
}

void SetColour(cairo_t* cr, const Rgb& colour) {
  cairo_set_source_rgb(cr, colour.red, colour.green, colour.blue);
}

}  // namespace rowproof::drawing
