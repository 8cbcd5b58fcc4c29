// The words of the pattern sheet, and what they are made from. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_SHEET_H_
#define ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_SHEET_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/faults/coverage.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/domain/rows/writing/writer.h"
#include "services/domain/stop.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/test_call.h"

namespace rowproof::sheets {

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

// Every word of it. Numbers are rounded and written, lists are in the order in which they are
// printed, and what is empty is left out together with its heading.
struct PatternSheetText {
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
  std::vector<std::string> finishing;           // border, ends, blocking, care
  std::vector<std::string> tested;              // testers, coverage, hands
  std::vector<std::string> versions_concerned;  // what became of the earlier versions
};

// How the rows of a pattern sheet are written.
struct SheetStyle {
  // None: those of the version's own text, else of its row style, else US.
  std::optional<chart::Terms> terms;
  // None: that of the version's row style, else brackets.
  std::optional<rows::RepeatStyle> repeat_style;
};

// The version that a sheet is about. What is referred to outlives it.
struct SheetVersion {
  int number = 0;
  const patterns::VersionContent& content;
  const std::vector<estimate::SizeEstimate>& estimates;
  // Of its own text, as it was read; none if there is no text or it was not compared.
  std::optional<chart::Terms> text_terms;
  // The call's newest; none without one.
  const std::optional<reconcile::ReconciliationRecord>& reconciliation;
};

// Finished sizes: the estimate's, corrected if a reconciliation has measured widths or heights, and
// which of them were corrected.
void AddSizes(const SheetVersion& version, PatternSheetText& sheet);
// The rows for both hands and the text around them, finishing included: the designer's if the
// version has them, otherwise those written from the chart. Errors as rows::WriteRows, and
// INVALID_ARGUMENT "sheet.terms" for terms that the version's own text does not have.
// The stop's status if the work has to stop.
absl::Status AddRows(const SheetVersion& version, const SheetStyle& style, const Stop& stop,
                     PatternSheetText& sheet);

struct TestedWork {
  const chart::Design& design;
  const std::vector<testcalls::SeatRecord>& seats;
  const std::vector<testcalls::ReportRecord>& reports;  // the newest of each seat
  std::vector<faults::SizeCoverage> coverage;
};

// Lines on who worked what; null: there was no test call.
std::vector<std::string> TestedLines(const TestedWork* work);

// That this version takes the place of an earlier one.
std::string ReplacesLine(int earlier_version);

}  // namespace rowproof::sheets

#endif  // ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_SHEET_H_
