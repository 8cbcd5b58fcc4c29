// The pattern sheet that a buyer receives and the errata sheet that goes with a
// correction, as PDF.
//
// The structures are plain values put together by the caller: every number is
// already rounded and written as text, every list is in the order in which it
// is printed, and what is empty is left out together with its heading. All text
// is plain text (never markup), UTF-8, any Unicode; a line feed starts a new
// line, other control characters count as blanks, bytes that are not UTF-8 are
// shown as U+FFFD.
//
// The same input gives the same bytes: the document's only date is
// `release_date`, the only fonts are DejaVu Sans and DejaVu Sans Mono.
// Functions are thread-safe.
#ifndef ROWPROOF_SERVICES_DRAWING_SHEETS_SHEETS_H_
#define ROWPROOF_SERVICES_DRAWING_SHEETS_SHEETS_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/sheets/errata_sheet.h"
#include "services/drawing/charts/drawing.h"
#include "services/drawing/paper.h"

namespace rowproof::drawing {

struct FinishedSize {
  std::string size;      // the size's name
  std::string stitches;  // "53 sts x 96 rows"
  std::string metric;    // "38 x 62 cm"
  std::string us;        // "15 x 24 1/2 in"
};

// The yarn that one colour was designed in.
struct YarnUsed {
  std::string colour;  // "A", "A, Oat"
  std::string yarn;    // class and fibre: "4 Medium, 100 % cotton"
  std::string ball;    // "85 m (93 yd) per 50 g"
};

// How much of one colour one size takes.
struct YarnAmount {
  std::string size;
  std::string colour;
  std::string metres;
  std::string yards;
  std::string grams;
  std::string balls;
};

struct Definition {
  std::string term;     // "ssc"
  std::string meaning;  // "spike single crochet"
};

struct PatternSheet {
  std::string title;
  std::string designer;
  std::string version_line;  // "Version 2"
  std::string hash_line;     // "SHA-256 0f3a..."
  std::string release_date;  // civil date YYYY-MM-DD
  std::string summary;       // technique, facing and ends in a sentence
  std::string level;         // "intermediate"
  std::vector<std::string> cautions;
  std::vector<FinishedSize> sizes;
  std::vector<std::string> size_notes;  // estimated, or corrected by what testers measured
  std::vector<std::string> gauge;       // with the stitch named; before and after blocking
  std::string hook;                     // "5.5 mm (US I-9), or the size that gives the gauge"
  std::vector<YarnUsed> yarns;
  std::vector<YarnAmount> amounts;
  std::vector<std::string> amount_notes;  // for whom the amounts suffice, what they include
  std::string terms;                      // "US terms, right-handed"
  std::string multiple;                   // "multiple of 4 plus 5"
  std::vector<Definition> abbreviations;
  std::vector<Definition> special_stitches;
  std::vector<std::string> notes;
  std::vector<std::string> written_rows;  // one for each row or group of rows, in working order
  // The same rows for the other hand, printed after the first under a heading
  // of their own.
  std::string other_hand_heading;
  std::vector<std::string> other_hand_rows;
  std::vector<std::string> finishing;  // border, ends, blocking, care
  // Not owned; no chart is printed without it. Must outlive the call.
  const chart::Design* chart = nullptr;
  // How the chart is drawn, in the convention in which it was given and with
  // its bands once; title, paper and date are taken from the sheet.
  DrawingRequest chart_options;
  std::vector<std::string> tested;              // testers, coverage, hands
  std::vector<std::string> versions_concerned;  // what became of the earlier versions
};

// Errors: INVALID_ARGUMENT if `release_date` is no civil date, title,
// designer, version, hash or other hand's heading is over kLongestTitle, or as
// DrawChart under "chart" and "chart_options"; OverLimit over kMostPages pages
// or 2,000,000 bytes of text; INTERNAL if the font is missing or the PDF
// cannot be written.
absl::StatusOr<std::string> DrawPatternSheet(const PatternSheet& sheet, Paper paper);
absl::StatusOr<std::string> DrawErrataSheet(const sheets::ErrataSheet& sheet, Paper paper);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_SHEETS_SHEETS_H_
