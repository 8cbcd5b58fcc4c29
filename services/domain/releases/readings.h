// Which worked rows read the same in which versions, and where a row of one version stands in
// another. Not thread-safe (it keeps the differences it has made); one a transaction.
#ifndef ROWPROOF_SERVICES_DOMAIN_RELEASES_READINGS_H_
#define ROWPROOF_SERVICES_DOMAIN_RELEASES_READINGS_H_

#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "services/domain/reconcile/coverage.h"
#include "services/domain/releases/carrying.h"
#include "services/domain/releases/difference.h"

namespace rowproof::releases {

// How far a tester had come by one revision of the report.
struct WorkStep {
  int version = 0;
  int last_row = 0;  // worked row of that version; 0: none
};

class Readings {
 public:
  // `designs` by version number, all valid; `present` is one of them. Not owned.
  Readings(const std::map<int, const chart::Design*>& designs, int present)
      : designs_(designs), present_(present) {}

  // Whether worked row `row` (of the present version, size an index of its sizes) reads the same in
  // two versions. Chart and written rows do so alike: the rows are written from the chart.
  bool Same(int size, int row, int version, int other);

  // A place of `version` in the present one; none where the version or the size is not there, or
  // the row is gone.
  std::optional<Place> InPresent(const std::string& size, int version, const Place& place);

  // Rows worked in the order of the reports, in the present numbering: each row counts as worked
  // from the version of the report that first reached it.
  reconcile::TesterWork WorkOf(const std::string& seat, const std::string& size,
                               const std::vector<WorkStep>& steps);

  const chart::Design& present() const { return *designs_.at(present_); }

 private:
  // Sizes matched by name; null where one of them lacks it.
  const SizeDifference* Difference(int from, int to, const std::string& size);
  // The row of `version` that stands where this row of the present version does; 0: none.
  int RowIn(int version, const std::string& size, int row);

  const std::map<int, const chart::Design*>& designs_;
  int present_;
  std::map<std::tuple<int, int, std::string>, SizeDifference> differences_;
};

}  // namespace rowproof::releases

#endif  // ROWPROOF_SERVICES_DOMAIN_RELEASES_READINGS_H_
