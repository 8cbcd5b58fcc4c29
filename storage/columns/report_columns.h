// The columns of a report, once for the statement that stores it and for reading
// report_with_errata. See column_type.h.
#ifndef ROWPROOF_STORAGE_COLUMNS_REPORT_COLUMNS_H_
#define ROWPROOF_STORAGE_COLUMNS_REPORT_COLUMNS_H_

#include <string>
#include <utility>
#include <vector>

#include "storage/json/json_fields.h"
#include "storage/reports.h"

namespace rowproof::storage {

// Readings of both gauges in one list.
struct StoredReading {
  bool is_after = false;  // blocking
  estimate::GaugeReading reading;
};

struct StoredErratum {
  ErratumId id;
  faults::Erratum erratum;
};

// A report, with the values that its columns hold in another form.
struct StoredReport {
  testcalls::ReportRecord
      row;  // with empty report.gauge_before, .gauge_after, .errata and row.errata
  std::vector<StoredReading> gauge;
  std::vector<StoredErratum> errata;
};

template <typename Archive>
void YarnColumns(Archive& a, StructOf<testcalls::YarnUse> auto& use) {
  a.Column("yarn_colour", use.colour);
  a.Present("yarn_is_own", use.yarn, [&a](auto& yarn) {
    a.Column("yarn_name", yarn.name);
    a.Column("yarn_fibre", yarn.fibre);
    a.Column("yarn_weight_class", yarn.weight_class);
    a.Column("yarn_wraps_per_inch", yarn.wraps_per_inch);
    a.Column("yarn_ball_length_m", yarn.ball_length_m);
    a.Column("yarn_ball_mass_g", yarn.ball_mass_g);
    a.Sparse("yarn_tex", yarn.tex);
  });
  a.Column("yarn_length_m", use.length_m);
  a.Column("yarn_length_step_m", use.length_step_m);
  a.Column("yarn_mass_before_g", use.mass_before_g);
  a.Column("yarn_mass_after_g", use.mass_after_g);
  a.Column("yarn_scale_step_g", use.scale_step_g);
  a.Column("yarn_with_swatch", use.with_swatch);
  a.Column("yarn_with_border", use.with_border);
}

template <typename Archive>
void ReadingColumns(Archive& a, StructOf<StoredReading> auto& stored) {
  a.Column("gauge_is_after", stored.is_after);
  a.Column("gauge_stitches", stored.reading.stitches);
  a.Column("gauge_rows", stored.reading.rows);
  a.Column("gauge_stitch_span_mm", stored.reading.stitch_span_mm);
  a.Column("gauge_row_span_mm", stored.reading.row_span_mm);
  a.Column("gauge_scale_step_mm", stored.reading.scale_step_mm);
}

// What distinguishes one erratum from another is stored with the erratum (NewErratumColumns).
template <typename Archive>
void ErratumColumns(Archive& a, StructOf<StoredErratum> auto& stored) {
  a.Column("erratum_id", stored.id.value);
  a.Joined("erratum_row", stored.erratum.row);
  a.Column("erratum_first", stored.erratum.first_stitch);
  a.Column("erratum_last", stored.erratum.last_stitch);
  a.Column("erratum_counted_from", stored.erratum.counted_from);
  a.Column("erratum_seen_in", stored.erratum.seen_in);
  a.Joined("erratum_kind", stored.erratum.kind);
  a.Joined("erratum_was", stored.erratum.was);
  a.Joined("erratum_should_be", stored.erratum.should_be);
  a.Column("erratum_remark", stored.erratum.remark);
}

template <typename Archive>
void ReportColumns(Archive& a, StructOf<StoredReport> auto& stored) {
  auto& row = stored.row;
  auto& report = row.report;
  a.Column("pattern_id", row.pattern.value);
  a.Column("call_id", row.call.value);
  a.Column("seat_id", row.seat.value);
  a.Column("number", row.number);
  a.Column("entered_by", row.entered_by.value);
  a.Column("on_behalf", row.on_behalf);
  a.Time("created_at", "created", row.created_at);
  a.Column("version_number", report.version);
  a.Column("size_name", report.size);
  a.Column("worked_from", report.worked_from);
  a.Column("hand", report.hand);
  a.Column("terms", report.terms);
  a.List(report.yarn, [](auto& list, auto& use) { YarnColumns(list, use); });
  a.Column("hook_mm", report.hook_mm);
  a.Column("ends", report.ends);
  a.List(stored.gauge, [](auto& list, auto& reading) { ReadingColumns(list, reading); });
  a.Column("how_blocked", report.how_blocked);
  a.Column("width_before_mm", report.width_before_mm);
  a.Column("height_before_mm", report.height_before_mm);
  a.Column("width_after_mm", report.width_after_mm);
  a.Column("height_after_mm", report.height_after_mm);
  a.Column("tape_step_mm", report.tape_step_mm);
  a.Column("minutes", report.minutes);
  a.Column("last_row", report.last_row);
  a.Column("finished", report.finished);
  a.Column("remarks", report.remarks);
  a.List(stored.errata, [](auto& list, auto& erratum) { ErratumColumns(list, erratum); });
}

// An erratum that no earlier revision reported, in its own table.
struct NewErratum {
  StoredErratum stored;
  PlacedErratum placed;
};
template <typename Archive>
void NewErratumColumns(Archive& a, StructOf<NewErratum> auto& added) {
  a.Column("erratum_id", added.stored.id.value);
  a.Column("worked_row", added.stored.erratum.row);
  a.Column("kind", added.stored.erratum.kind);
  a.Column("was", added.stored.erratum.was);
  a.Column("should_be", added.stored.erratum.should_be);
  a.Column("chart_row", added.placed.chart_row);
  a.Column("first_stitch", added.placed.stitches.first);
  a.Column("last_stitch", added.placed.stitches.last);
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_COLUMNS_REPORT_COLUMNS_H_
