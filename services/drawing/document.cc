#include "services/drawing/document.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <chrono>
#include <cmath>
#include <memory>
#include <regex>

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

cairo_status_t Append(void* target, const unsigned char* data, unsigned int length) {
  try {
    static_cast<std::string*>(target)->append(reinterpret_cast<const char*>(data), length);
  } catch (const std::bad_alloc&) {
    return CAIRO_STATUS_NO_MEMORY;  // an exception must not pass through C
  }
  return CAIRO_STATUS_SUCCESS;
}

absl::Status FromCairo(cairo_status_t status) {
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
  if (flow.over_limit()) return OverLimit("the document", fmt::format("{} pages", kMostPages));
  std::string bytes;
  const PageShape& shape = flow.shape();
  const Surface pdf(cairo_pdf_surface_create_for_stream(Append, &bytes, shape.width, shape.height));
  SetMetadata(pdf.get(), facts);
  {
    const Context cr(cairo_create(pdf.get()));
    for (int page = 1; page <= flow.page_count(); ++page) {
      PaintFrame(cr.get(), flow, facts, page);
      flow.Paint(page, cr.get());
      cairo_show_page(cr.get());
    }
    if (auto status = FromCairo(cairo_status(cr.get())); !status.ok()) return status;
  }
  AddOutline(pdf.get(), flow);
  cairo_surface_finish(pdf.get());
  if (auto status = FromCairo(cairo_surface_status(pdf.get())); !status.ok()) return status;
  return bytes;
}

absl::StatusOr<std::string> WritePng(double width, double height,
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
    cairo_set_source_rgb(cr.get(), 1, 1, 1);
    cairo_paint(cr.get());
    paint(cr.get());
    if (auto status = FromCairo(cairo_status(cr.get())); !status.ok()) return status;
  }
  std::string bytes;
  const auto written = cairo_surface_write_to_png_stream(image.get(), Append, &bytes);
  if (auto status = FromCairo(written); !status.ok()) return status;
  return bytes;
}

absl::StatusOr<std::string> WriteSvg(double width, double height,
                                     const std::function<void(cairo_t*)>& paint) {
  std::string bytes;
  const Surface svg(cairo_svg_surface_create_for_stream(Append, &bytes, width, height));
  {
    const Context cr(cairo_create(svg.get()));
    cairo_set_source_rgb(cr.get(), 1, 1, 1);
    cairo_paint(cr.get());
    paint(cr.get());
    if (auto status = FromCairo(cairo_status(cr.get())); !status.ok()) return status;
  }
  cairo_surface_finish(svg.get());
  if (auto status = FromCairo(cairo_surface_status(svg.get())); !status.ok()) return status;
  // Cairo numbers its surfaces over the life of the process; no other text of
  // ours is in the file.
  static const std::regex kSurfaceNumber("\"surface[0-9]+\"");
  return std::regex_replace(bytes, kSurfaceNumber, "\"picture\"");
}

}  // namespace rowproof::drawing
