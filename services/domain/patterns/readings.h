// Which worked rows read the same in which versions, and which row of one version is which in
// another. Not thread-safe (it keeps the differences and texts it has read); one for each
// transaction.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_READINGS_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_READINGS_H_

#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "services/domain/faults/coverage.h"
#include "services/domain/faults/erratum.h"
#include "services/domain/patterns/carrying.h"
#include "services/domain/patterns/difference.h"
#include "services/domain/patterns/version_content.h"
#include "services/domain/rows/reading/own_rows.h"
#include "services/domain/stop.h"

namespace rowproof::patterns {

// How far a tester had come by one revision of the report.
struct WorkStep {
  int version = 0;
  int last_row = 0;  // worked row of that version; 0: none
};

class Readings {
 public:
  // By version number, all valid; `present` is one of them. Not owned.
  // Nothing reads the same any more once the work has to stop, which the caller asks; the stop
  // outlives it.
  Readings(const std::map<int, VersionContent>& contents, int present, const Stop* stop = nullptr)
      : contents_(contents), present_(present), stop_(stop) {}

  const chart::Design& present() const { return contents_.at(present_).design; }
  int present_version() const { return present_; }

  // Whether worked row `row` (of the present version, size an index of its sizes) reads the same in
  // two versions. As written, it does if the chart does and the rows of both are written from the
  // chart, or if the designer's texts of both say the same of the row and the work around it
  // (technique, form, stitches in a row) is the same. A version that brings a text for the first
  // time, or drops it, has every row in other words.
  bool Same(faults::Source source, int size, int row, int version, int other);

  // Whether the row reads the same in both versions to the tester who met a fault there. In chart
  // and text: one of them does; elsewhere: both do.
  bool SameAsMet(faults::SeenIn seen_in, int size, int row, int version, int other);

  // A place of `version` in the present one; none if the version or the size is not there, or
  // the row is gone.
  std::optional<Place> InPresent(const std::string& size, int version, const Place& place);

  // Rows worked in the order of the reports, in the present numbering: each row counts as worked
  // from the version of the report that first reached it.
  faults::TesterWork WorkOf(const std::string& seat, const std::string& size,
                            const std::vector<WorkStep>& steps);

 private:
  bool StopAfter(int work) const { return stop_ != nullptr && stop_->After(work); }
  // Sizes matched by name; null if one of them lacks it, or the work has to stop.
  const SizeDifference* Difference(int from, int to, const std::string& size);
  // The row of `version` at the place of this row of the present version; 0: none.
  int RowIn(int version, const std::string& size, int row);
  const rows::OwnRows& TextOf(int version);
  // Both rows are worked rows of their own version, in a size that both have.
  bool SameText(const std::string& size, int row, int version, int other_row, int other);

  const std::map<int, VersionContent>& contents_;
  int present_;
  const Stop* stop_;
  std::map<std::tuple<int, int, std::string>, SizeDifference> differences_;
  std::map<int, rows::OwnRows> texts_;
};

// Turns kSame into kTextChanged if the designer's own texts of the two versions do not say the
// same of the row. `before` is the text of the earlier version, `after` that of the later one.
void MarkTextChanges(const rows::OwnRows& before, const rows::OwnRows& after,
                     SizeDifference& difference);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_READINGS_H_
