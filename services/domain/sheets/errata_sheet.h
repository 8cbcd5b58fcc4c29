// The errata sheet that goes with a corrected version, as a structure and as plain text.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_SHEETS_ERRATA_SHEET_H_
#define ROWPROOF_SERVICES_DOMAIN_SHEETS_ERRATA_SHEET_H_

#include <string>
#include <vector>

#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/difference_sentences.h"

namespace rowproof::sheets {

inline constexpr size_t kMailColumns = 76;
inline constexpr size_t kTableColumns = 100;

// One correction. Texts are the designer's decision in words, metric and US if they name lengths
// or masses (services/quantities/printing.h); control characters count as blanks.
struct ErrataEntry {
  int version = 0;       // the version that has the fault
  std::string section;   // "Rows", "Materials", "Sizes"; may be empty
  int page = 0;          // of that version's sheet; 0: not stated
  std::string sizes;     // "S, M"; empty: all sizes
  int row = 0;           // worked row from 1; 0: not in a row
  int first_stitch = 0;  // 0: the whole row
  int last_stitch = 0;
  std::string was;
  std::string should_be;
  std::string found_in;  // "chart", "written rows", "materials", ...
  std::string note;      // why, or how to continue; may be empty
  bool operator==(const ErrataEntry&) const = default;
};

struct ErrataSheet {
  std::string title;  // of the pattern
  std::string designer;
  std::vector<int> versions_concerned;     // versions that have one of the faults, ascending
  int corrected_in = 0;                    // the version that this release publishes
  std::string content_hash;                // its 64 hexadecimal digits
  std::string release_date;                // civil date YYYY-MM-DD
  int first_row_number = 1;                // the number the pattern gives to worked row 1
  std::vector<ErrataEntry> entries;        // in the order of SortEntries
  std::vector<std::string> changed_rows;   // sentences: rows that read otherwise now
  std::vector<std::string> other_changes;  // sentences
  bool operator==(const ErrataSheet&) const = default;
};

// The content of a sheet; the entries may be in any order.
struct ErrataSheetFacts {
  std::string title;
  std::string designer;
  int corrected_in = 0;
  std::string content_hash;
  std::string release_date;
  patterns::RowNumbers numbers;  // of the difference; the entries' rows are worked rows
  std::vector<ErrataEntry> entries;
  patterns::VersionDifference
      difference;  // from the last published version; default: nothing to name
};
ErrataSheet MakeErrataSheet(const ErrataSheetFacts& facts);

// By row (entries without a row last), first stitch, version, section.
void SortEntries(std::vector<ErrataEntry>& entries);

// "Row 27, stitches 5 to 8", "Rows, page 3, row 27", "Materials, page 2", "Whole pattern".
std::string PlaceInWords(const ErrataEntry& entry, int first_row_number);

// For mail: no line is longer than kMailColumns columns, however long a word in it.
std::string PlainText(const ErrataSheet& sheet);
// The same entries as a table of at most kTableColumns columns; cells wrap.
std::string Table(const ErrataSheet& sheet);

}  // namespace rowproof::sheets

#endif  // ROWPROOF_SERVICES_DOMAIN_SHEETS_ERRATA_SHEET_H_
