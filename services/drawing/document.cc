#include "services/drawing/document.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <memory>
#include <regex>
#include <string_view>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::drawing {
namespace {

constexpr Rgb kQuiet{0.35, 0.35, 0.38};

struct FreeSurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreeContext {
  void operator()(cairo_t* cr) const { cairo_destroy(cr); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;
using Context = std::unique_ptr<cairo_t, FreeContext>;

// The file as far as it is written.
struct Target {
  const Typesetter& typesetter;
  std::string bytes = {};
};

// A refusal ends the writing: between two pieces of a file there can be milliseconds of packing.
cairo_status_t Append(void* closure, const unsigned char* data, unsigned int length) {
  auto* const target = static_cast<Target*>(closure);
  try {
    if (target->typesetter.StopNow()) return CAIRO_STATUS_WRITE_ERROR;
    target->bytes.append(reinterpret_cast<const char*>(data), length);
  } catch (const std::bad_alloc&) {
    return CAIRO_STATUS_NO_MEMORY;  // an exception must not pass through C
  }
  return CAIRO_STATUS_SUCCESS;
}

absl::Status FromCairo(const Typesetter& typesetter, cairo_status_t status) {
  if (auto stopped = typesetter.stop_status(); !stopped.ok()) return stopped;
  if (status == CAIRO_STATUS_SUCCESS) return absl::OkStatus();
  return Internal(fmt::format("drawing: cairo: {}", cairo_status_to_string(status)));
}

void SetMetadata(cairo_surface_t* pdf, const DocumentFacts& facts) {
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, Printable(facts.title).c_str());
  if (!facts.author.empty()) {
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_AUTHOR, Printable(facts.author).c_str());
  }
  // Otherwise cairo writes the present time.
  const std::string moment = facts.date + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, moment.c_str());
}

// Header and footer of one page.
void PaintFrame(cairo_t* cr, const Flow& flow, const DocumentFacts& facts, int page) {
  const PageShape& shape = flow.shape();
  TextStyle style;
  style.size = 7.5;
  style.most_lines = 1;
  SetColour(cr, kQuiet);
  const auto put = [&](const std::string& text, Align align, double x, double y, double width) {
    style.align = align;
    style.width = width;
    flow.typesetter().Set(text, style).Draw(cr, x, y);
  };
  const double half = shape.content_width() / 2;
  if (page > 1) {
    style.bold = true;
    put(facts.title, Align::kLeft, shape.side_margin, 30, half * 1.4 - 8);
    style.bold = false;
    put(facts.header_right, Align::kRight, shape.side_margin + half * 1.4, 30, half * 0.6);
    cairo_rectangle(cr, shape.side_margin, 43, shape.content_width(), 0.5);
    cairo_fill(cr);
  }
  const double foot = shape.height - 40;
  put(facts.footer_left, Align::kLeft, shape.side_margin, foot, half * 1.4 - 8);
  put(fmt::format("page {} of {}", page, flow.page_count()), Align::kRight,
      shape.side_margin + half * 1.4, foot, half * 0.6);
}

void AddOutline(cairo_surface_t* pdf, const Flow& flow) {
  for (const OutlineEntry& entry : flow.outline()) {
    cairo_pdf_surface_add_outline(pdf, CAIRO_PDF_OUTLINE_ROOT, Printable(entry.heading).c_str(),
                                  fmt::format("page={} pos=[0 0]", entry.page).c_str(),
                                  static_cast<cairo_pdf_outline_flags_t>(0));
  }
}

// Cairo numbers its surfaces over the life of the process; no other text of ours is in the file.
std::string WithoutSurfaceNumbers(const std::string& svg) {
  constexpr std::string_view kBegin = "\"surface";
  std::string named;
  named.reserve(svg.size());
  size_t done = 0;
  for (size_t at = svg.find(kBegin); at != std::string::npos; at = svg.find(kBegin, at + 1)) {
    const size_t number = at + kBegin.size();
    const size_t end = svg.find_first_not_of("0123456789", number);
    if (end == number || end == std::string::npos || svg[end] != '"') continue;
    named.append(svg, done, at - done).append("\"picture\"");
    done = end + 1;
  }
  return named.append(svg, done);
}

// In strips of about a megabyte: the first touch of 160 MB of pixels takes a second on a slow
// machine.
void PaintWhite(cairo_t* cr, const Typesetter& typesetter, double across, double down) {
  constexpr int kStripPixels = 250'000;
  const double strip = std::max(1.0, std::floor(kStripPixels / across));
  cairo_set_source_rgb(cr, 1, 1, 1);
  for (double y = 0; y < down && !typesetter.StopAfter(kStripPixels); y += strip) {
    cairo_rectangle(cr, 0, y, across, std::min(strip, down - y));
    cairo_fill(cr);
  }
}

}  // namespace

absl::Status ValidateDate(const std::string& field, const std::string& date) {
  static const std::regex kForm("[0-9]{4}-[0-9]{2}-[0-9]{2}");
  bool good = std::regex_match(date, kForm);
  if (good) {
    const std::chrono::year_month_day day{
        std::chrono::year(std::stoi(date.substr(0, 4))),
        std::chrono::month(static_cast<unsigned>(std::stoi(date.substr(5, 2)))),
        std::chrono::day(static_cast<unsigned>(std::stoi(date.substr(8, 2))))};
    good = day.ok();
  }
  return good ? absl::OkStatus() : InvalidField(field, date, "a date such as 2026-05-31");
}

absl::StatusOr<std::string> WritePdf(const Flow& flow, const DocumentFacts& facts) {
  const Typesetter& typesetter = flow.typesetter();
  if (auto stopped = typesetter.stop_status(); !stopped.ok()) return stopped;
  if (flow.over_limit()) return OverLimit("the document", fmt::format("{} pages", kMostPages));
  Target target{typesetter};
  const PageShape& shape = flow.shape();
  const Surface pdf(
      cairo_pdf_surface_create_for_stream(Append, &target, shape.width, shape.height));
  SetMetadata(pdf.get(), facts);
  {
    const Context cr(cairo_create(pdf.get()));
    for (int page = 1; page <= flow.page_count() && !typesetter.StopNow(); ++page) {
      PaintFrame(cr.get(), flow, facts, page);
      flow.Paint(page, cr.get());
      cairo_show_page(cr.get());
    }
    if (auto s = FromCairo(typesetter, cairo_status(cr.get())); !s.ok()) return s;
  }
  AddOutline(pdf.get(), flow);
  cairo_surface_finish(pdf.get());
  if (auto s = FromCairo(typesetter, cairo_surface_status(pdf.get())); !s.ok()) return s;
  return std::move(target.bytes);
}

absl::StatusOr<std::string> WritePng(const Typesetter& typesetter, double width, double height,
                                     const std::function<void(cairo_t*)>& paint) {
  const double across = std::ceil(width);
  const double down = std::ceil(height);
  if (across > kMostPictureSide || down > kMostPictureSide ||
      across * down > static_cast<double>(kMostPixels)) {
    return OverLimit(fmt::format("a picture of {:.0f} x {:.0f} pixels", across, down),
                     fmt::format("{} pixels, {} a side", kMostPixels, kMostPictureSide));
  }
  const Surface image(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(across),
                                                 static_cast<int>(down)));
  {
    const Context cr(cairo_create(image.get()));
    PaintWhite(cr.get(), typesetter, across, down);
    if (auto stopped = typesetter.stop_status(); !stopped.ok()) return stopped;
    paint(cr.get());
    if (auto s = FromCairo(typesetter, cairo_status(cr.get())); !s.ok()) return s;
  }
  Target target{typesetter};
  const auto written = cairo_surface_write_to_png_stream(image.get(), Append, &target);
  if (auto s = FromCairo(typesetter, written); !s.ok()) return s;
  return std::move(target.bytes);
}

absl::StatusOr<std::string> WriteSvg(const Typesetter& typesetter, double width, double height,
                                     const std::function<void(cairo_t*)>& paint) {
  Target target{typesetter};
  const Surface svg(cairo_svg_surface_create_for_stream(Append, &target, width, height));
  {
    const Context cr(cairo_create(svg.get()));
    cairo_set_source_rgb(cr.get(), 1, 1, 1);
    cairo_paint(cr.get());
    paint(cr.get());
    if (auto s = FromCairo(typesetter, cairo_status(cr.get())); !s.ok()) return s;
  }
  cairo_surface_finish(svg.get());
  if (auto s = FromCairo(typesetter, cairo_surface_status(svg.get())); !s.ok()) return s;
  return WithoutSurfaceNumbers(target.bytes);
}

}  // namespace rowproof::drawing
