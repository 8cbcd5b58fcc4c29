#include "services/drawing/sheets/errata_sheet.h"

#include "fmt/format.h"
#include "fmt/ranges.h"
#include "services/domain/errors.h"
#include "services/domain/sheets/errata_sheet.h"
#include "services/drawing/document.h"
#include "services/drawing/sheets/sheet_parts.h"

namespace rowproof::drawing {
namespace {

using sheets::ErrataEntry;
using sheets::ErrataSheet;

constexpr double kNumberIndent = 20;
constexpr size_t kMostVersions = 100;  // named in the running header

size_t SheetBytes(const ErrataSheet& sheet) {
  size_t bytes = sheet.title.size() + sheet.designer.size() + sheet.content_hash.size();
  bytes += TextBytes(sheet.changed_rows) + TextBytes(sheet.other_changes);
  for (const ErrataEntry& entry : sheet.entries) {
    bytes += TextBytes(
        {entry.section, entry.sizes, entry.was, entry.should_be, entry.found_in, entry.note});
  }
  return bytes;
}

std::string VersionLine(const ErrataSheet& sheet) {
  const std::string in = fmt::format("corrected in version {}", sheet.corrected_in);
  if (sheet.versions_concerned.empty()) return "C" + in.substr(1);
  return fmt::format("Version{} {}, {}", sheet.versions_concerned.size() == 1 ? "" : "s",
                     fmt::join(sheet.versions_concerned, ", "), in);
}

// "1. Row 27, stitches 5 to 8 (version 1; all sizes; written rows)", then the two readings.
void AddEntry(Flow& flow, size_t number, const ErrataEntry& entry, int first_row_number) {
  std::string where = fmt::format("version {}; {}", entry.version,
                                  entry.sizes.empty() ? "all sizes" : "sizes " + entry.sizes);
  if (!entry.found_in.empty()) where += "; " + entry.found_in;
  TextStyle head = BodyStyle();
  head.bold = true;
  flow.Gap(5);
  // The place stays with the first lines of what it corrects.
  flow.Need(4 * head.size * head.line_height);
  flow.Item(fmt::format("{}.", number),
            fmt::format("{} ({})", sheets::PlaceInWords(entry, first_row_number), where), head,
            kNumberIndent);
  const auto line = [&](const std::string& label, const std::string& text) {
    if (text.empty()) return;
    TextStyle style = BodyStyle();
    style.hanging = 58;
    style.bold_bytes = label.size() + 1;
    flow.Paragraph(fmt::format("{}: {}", label, text), style, kNumberIndent);
  };
  line("Was", entry.was);
  line("Should be", entry.should_be);
  line("Note", entry.note);
}

}  // namespace

absl::StatusOr<std::string> DrawErrataSheet(const ErrataSheet& sheet, Paper paper,
                                            const Stop& stop) {
  if (auto status = ValidateDate("release_date", sheet.release_date); !status.ok()) return status;
  for (const auto& [field, text] : {std::pair{"title", &sheet.title},
                                    {"designer", &sheet.designer},
                                    {"content_hash", &sheet.content_hash}}) {
    if (auto status = ValidateHeading(field, *text); !status.ok()) return status;
  }
  if (sheet.versions_concerned.size() > kMostVersions) {
    return OverLimit("the list of versions concerned", fmt::format("{} versions", kMostVersions));
  }
  if (auto status = ValidateTextBytes(SheetBytes(sheet)); !status.ok()) return status;
  auto typesetter = Typesetter::Open(&stop);
  if (!typesetter.ok()) return typesetter.status();
  Flow flow(*typesetter, ShapeOf(paper));
  const std::string versions = VersionLine(sheet);
  AddMasthead(flow, "Errata sheet of a mosaic crochet pattern", sheet.title, sheet.designer,
              versions, sheet.release_date,
              sheet.content_hash.empty() ? "" : "SHA-256 " + sheet.content_hash);
  flow.Section("Corrections");
  if (sheet.entries.empty()) {
    flow.Paragraph("No errata are known in these versions.", BodyStyle());
  }
  for (size_t i = 0; i < sheet.entries.size() && !flow.over_limit(); ++i) {
    AddEntry(flow, i + 1, sheet.entries[i], sheet.first_row_number);
  }
  AddBullets(flow, "Changed rows", sheet.changed_rows);
  AddBullets(flow, "Other changes", sheet.other_changes);
  DocumentFacts facts;
  facts.title = sheet.title + ": errata";
  facts.author = sheet.designer;
  facts.header_right = versions;
  facts.footer_left = sheet.designer;
  facts.date = sheet.release_date;
  return WritePdf(flow, facts);
}

}  // namespace rowproof::drawing
