#include "services/drawing/sheets/sheet_parts.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/palette.h"

namespace rowproof::drawing {
namespace {

constexpr double kIndent = 12;
constexpr size_t kLongestRowLabel = 80;  // bytes

}  // namespace

TextStyle BodyStyle() {
  TextStyle style;
  style.size = 9;
  style.line_height = 1.35;
  return style;
}

absl::Status ValidateTextBytes(size_t bytes) {
  if (bytes <= kMostSheetBytes) return absl::OkStatus();
  return OverLimit(fmt::format("a sheet with {} bytes of text", bytes),
                   fmt::format("{} bytes", kMostSheetBytes));
}

absl::Status ValidateHeading(const std::string& field, const std::string& text) {
  if (text.size() <= kLongestTitle) return absl::OkStatus();
  return InvalidField(field, fmt::format("{} bytes", text.size()),
                      fmt::format("at most {} bytes long", kLongestTitle));
}

size_t TextBytes(const std::vector<std::string>& texts) {
  size_t bytes = 0;
  for (const std::string& text : texts) bytes += text.size();
  return bytes;
}

void AddMasthead(Flow& flow, const std::string& kind, const std::string& title,
                 const std::string& designer, const std::string& version_line,
                 const std::string& release_date, const std::string& hash_line) {
  TextStyle style;
  style.size = 9;
  flow.Paragraph(kind, style);
  style.size = 22;
  style.bold = true;
  style.line_height = 1.25;
  flow.Paragraph(title, style);
  flow.Gap(2);
  style = BodyStyle();
  if (!designer.empty()) {
    style.size = 11;
    flow.Paragraph("by " + designer, style);
    flow.Gap(4);
  }
  style = BodyStyle();
  std::string line = version_line;
  if (!line.empty()) line += ", ";
  flow.Paragraph(line + "released " + release_date, style);
  if (!hash_line.empty()) {
    style.size = 7;
    style.mono = true;
    flow.Paragraph(hash_line, style);
  }
  flow.Gap(4);
}

void AddBullets(Flow& flow, const std::string& heading, const std::vector<std::string>& texts) {
  if (texts.empty()) return;
  flow.Section(heading);
  for (const std::string& text : texts) {
    if (flow.over_limit()) return;
    flow.Item("\u2022", text, BodyStyle(), kIndent);
    flow.Gap(2);
  }
}

void AddDefinitions(Flow& flow, const std::string& heading,
                    const std::vector<sheets::Definition>& definitions) {
  if (definitions.empty()) return;
  flow.Section(heading);
  for (const sheets::Definition& definition : definitions) {
    if (flow.over_limit()) return;
    TextStyle style = BodyStyle();
    style.hanging = kIndent;
    style.bold_bytes = definition.term.size() + 1;
    flow.Paragraph(fmt::format("{}: {}", definition.term, definition.meaning), style);
    flow.Gap(2);
  }
}

void AddRows(Flow& flow, const std::string& heading, const std::vector<std::string>& rows) {
  if (rows.empty()) return;
  flow.Section(heading);
  for (const std::string& row : rows) {
    if (flow.over_limit()) return;
    TextStyle style = BodyStyle();
    style.hanging = kIndent;
    const size_t colon = row.find(':');
    if (colon != std::string::npos && colon < kLongestRowLabel) style.bold_bytes = colon + 1;
    flow.Paragraph(row, style);
    flow.Gap(2.5);
  }
}

void AddCautions(Flow& flow, const std::vector<std::string>& cautions) {
  if (cautions.empty()) return;
  flow.Gap(8);
  TextStyle style = BodyStyle();
  style.bold = true;
  flow.Need(48);
  flow.Paragraph("Caution", style);
  for (const std::string& caution : cautions) {
    if (flow.over_limit()) return;
    // A bar at the left of each line, which a break of the page cannot tear apart.
    const double top = flow.y();
    const int page = flow.page_count();
    flow.Item("!", caution, BodyStyle(), kIndent);
    if (flow.page_count() == page) {
      flow.Add([x = flow.left() - 8, top, bottom = flow.y()](cairo_t* cr) {
        SetColour(cr, kInk);
        cairo_rectangle(cr, x, top, 2.5, bottom - top);
        cairo_fill(cr);
      });
    }
    flow.Gap(2);
  }
}

}  // namespace rowproof::drawing
