// A report's parts as typed arrays, and a report from the columns of report_with_errata. For the
// .cc files of this folder, which include <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_REPORT_COLUMNS_H_
#define ROWPROOF_STORAGE_REPORT_COLUMNS_H_

#include <vector>

#include "storage/array_text.h"
#include "storage/reports.h"

namespace pqxx {
class row;
}  // namespace pqxx

namespace rowproof::storage {

struct YarnArrays {
  explicit YarnArrays(const std::vector<testcalls::YarnUse>& yarn);
  ArrayText colour, is_own, name, fibre, weight_class, wraps_per_inch, ball_length_m, ball_mass_g;
  ArrayText tex;  // empty unless a yarn has one
  ArrayText length_m, length_step_m, mass_before_g, mass_after_g, scale_step_g;
  ArrayText with_swatch, with_border;
};

struct GaugeArrays {
  explicit GaugeArrays(const testcalls::Report& report);
  ArrayText is_after, stitches, rows, stitch_span_mm, row_span_mm, scale_step_mm;
};

// One revision's errata, as its row holds them.
struct ErratumArrays {
  ErratumArrays(const std::vector<faults::Erratum>& errata,
                const std::vector<PlacedErratum>& placed);
  ArrayText id, first_counted, last_counted, counted_from, seen_in, remark;
};

// Those among them that no earlier revision reported.
struct NewErratumArrays {
  NewErratumArrays(const std::vector<faults::Erratum>& errata,
                   const std::vector<PlacedErratum>& placed);
  bool empty() const { return count == 0; }
  int count = 0;
  ArrayText id, row, kind, was, should_be, chart_row, first_stitch, last_stitch;
};

ReportRow ReportFrom(const pqxx::row& row);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_REPORT_COLUMNS_H_
