// The pattern sheet that a buyer receives, as PDF.
//
// All text is plain text (never markup), UTF-8, any Unicode; a line feed starts a new
// line, other control characters count as blanks, bytes that are not UTF-8 are
// shown as U+FFFD.
//
// The same input gives the same bytes: the document's only date is
// `release_date`, the only fonts are DejaVu Sans and DejaVu Sans Mono.
// Functions are thread-safe.
#ifndef ROWPROOF_SERVICES_DRAWING_SHEETS_PATTERN_SHEET_H_
#define ROWPROOF_SERVICES_DRAWING_SHEETS_PATTERN_SHEET_H_

#include <string>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/sheets/pattern_sheet.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/paper.h"

namespace rowproof::drawing {

struct PatternSheet : sheets::PatternSheetText {
  // Not owned; no chart is printed without it. Must outlive the call.
  const chart::Design* chart = nullptr;
  // How the chart is drawn, in the convention in which it was given and with
  // its bands once; title, paper and date are taken from the sheet.
  DrawingRequest chart_options;
};

// Errors: INVALID_ARGUMENT if `release_date` is no civil date, title,
// designer, version, hash or other hand's heading is over kLongestTitle, or as
// DrawChart under "chart" and "chart_options"; OverLimit over kMostPages pages
// or 2,000,000 bytes of text; INTERNAL if the font is missing or the PDF
// cannot be written; the stop's status if the work has to stop.
absl::StatusOr<std::string> DrawPatternSheet(const PatternSheet& sheet, Paper paper,
                                             const Stop& stop = {});

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_SHEETS_PATTERN_SHEET_H_
