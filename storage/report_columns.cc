#include "storage/report_columns.h"

#include <algorithm>
#include <pqxx/pqxx>

#include "storage/array_values.h"

namespace rowproof::storage {
namespace {

std::optional<double> Measured(const pqxx::field& field) {
  if (field.is_null()) return std::nullopt;
  return field.as<double>();
}

estimate::Yarn OwnYarn(const pqxx::row& row, size_t i) {
  estimate::Yarn yarn;
  yarn.name = ArrayFrom<std::string>(row["yarn_name"])[i];
  yarn.fibre = ArrayFrom<std::string>(row["yarn_fibre"])[i];
  yarn.weight_class = OptionalsFrom<int>(row["yarn_weight_class"])[i];
  yarn.wraps_per_inch = OptionalsFrom<double>(row["yarn_wraps_per_inch"])[i];
  yarn.ball_length_m = OptionalsFrom<double>(row["yarn_ball_length_m"])[i];
  yarn.ball_mass_g = OptionalsFrom<double>(row["yarn_ball_mass_g"])[i];
  const auto tex = OptionalsFrom<double>(row["yarn_tex"]);
  if (!tex.empty()) yarn.tex = tex[i];
  return yarn;
}

std::vector<testcalls::YarnUse> YarnFrom(const pqxx::row& row) {
  const auto colours = ArrayFrom<int>(row["yarn_colour"]);
  const auto is_own = ArrayFrom<bool>(row["yarn_is_own"]);
  const auto length_m = OptionalsFrom<double>(row["yarn_length_m"]);
  const auto length_step_m = ArrayFrom<double>(row["yarn_length_step_m"]);
  const auto mass_before_g = OptionalsFrom<double>(row["yarn_mass_before_g"]);
  const auto mass_after_g = OptionalsFrom<double>(row["yarn_mass_after_g"]);
  const auto scale_step_g = ArrayFrom<double>(row["yarn_scale_step_g"]);
  const auto with_swatch = ArrayFrom<bool>(row["yarn_with_swatch"]);
  const auto with_border = ArrayFrom<bool>(row["yarn_with_border"]);
  std::vector<testcalls::YarnUse> yarn;
  for (size_t i = 0; i < colours.size(); ++i) {
    testcalls::YarnUse use;
    use.colour = static_cast<estimate::YarnColour>(colours[i]);
    if (is_own[i]) use.yarn = OwnYarn(row, i);
    use.length_m = length_m[i];
    use.length_step_m = length_step_m[i];
    use.mass_before_g = mass_before_g[i];
    use.mass_after_g = mass_after_g[i];
    use.scale_step_g = scale_step_g[i];
    use.with_swatch = with_swatch[i];
    use.with_border = with_border[i];
    yarn.push_back(std::move(use));
  }
  return yarn;
}

void ReadGauge(const pqxx::row& row, testcalls::Report* report) {
  const auto is_after = ArrayFrom<bool>(row["gauge_is_after"]);
  const auto stitches = ArrayFrom<double>(row["gauge_stitches"]);
  const auto rows = ArrayFrom<double>(row["gauge_rows"]);
  const auto stitch_span_mm = ArrayFrom<double>(row["gauge_stitch_span_mm"]);
  const auto row_span_mm = ArrayFrom<double>(row["gauge_row_span_mm"]);
  const auto scale_step_mm = ArrayFrom<double>(row["gauge_scale_step_mm"]);
  for (size_t i = 0; i < is_after.size(); ++i) {
    auto& readings = is_after[i] ? report->gauge_after : report->gauge_before;
    readings.push_back({stitches[i], rows[i], stitch_span_mm[i], row_span_mm[i], scale_step_mm[i]});
  }
}

void ReadErrata(const pqxx::row& row, ReportRow* report) {
  const auto ids = ArrayFrom<std::string>(row["erratum_id"]);
  const auto rows = ArrayFrom<int>(row["erratum_row"]);
  const auto first = ArrayFrom<int>(row["erratum_first"]);
  const auto last = ArrayFrom<int>(row["erratum_last"]);
  const auto counted_from = ArrayFrom<int>(row["erratum_counted_from"]);
  const auto seen_in = ArrayFrom<int>(row["erratum_seen_in"]);
  const auto kind = ArrayFrom<int>(row["erratum_kind"]);
  const auto was = ArrayFrom<std::string>(row["erratum_was"]);
  const auto should_be = ArrayFrom<std::string>(row["erratum_should_be"]);
  const auto remark = ArrayFrom<std::string>(row["erratum_remark"]);
  for (size_t i = 0; i < ids.size(); ++i) {
    report->errata.push_back({ids[i]});
    report->report.errata.push_back(
        {rows[i], first[i], last[i], static_cast<faults::CountedFrom>(counted_from[i]),
         static_cast<faults::SeenIn>(seen_in[i]), static_cast<faults::ErratumKind>(kind[i]), was[i],
         should_be[i], remark[i]});
  }
}

}  // namespace

YarnArrays::YarnArrays(const std::vector<testcalls::YarnUse>& yarn) {
  const bool any_tex = std::any_of(yarn.begin(), yarn.end(), [](const testcalls::YarnUse& use) {
    return use.yarn.has_value() && use.yarn->tex.has_value();
  });
  for (const auto& use : yarn) {
    const estimate::Yarn own = use.yarn.value_or(estimate::Yarn());
    colour.Add(static_cast<int>(use.colour));
    is_own.Add(use.yarn.has_value());
    name.Add(own.name);
    fibre.Add(own.fibre);
    weight_class.Add(own.weight_class);
    wraps_per_inch.Add(own.wraps_per_inch);
    ball_length_m.Add(own.ball_length_m);
    ball_mass_g.Add(own.ball_mass_g);
    if (any_tex) tex.Add(own.tex);
    length_m.Add(use.length_m);
    length_step_m.Add(use.length_step_m);
    mass_before_g.Add(use.mass_before_g);
    mass_after_g.Add(use.mass_after_g);
    scale_step_g.Add(use.scale_step_g);
    with_swatch.Add(use.with_swatch);
    with_border.Add(use.with_border);
  }
}

GaugeArrays::GaugeArrays(const testcalls::Report& report) {
  for (const bool after : {false, true}) {
    for (const auto& reading : after ? report.gauge_after : report.gauge_before) {
      is_after.Add(after);
      stitches.Add(reading.stitches);
      rows.Add(reading.rows);
      stitch_span_mm.Add(reading.stitch_span_mm);
      row_span_mm.Add(reading.row_span_mm);
      scale_step_mm.Add(reading.scale_step_mm);
    }
  }
}

ErratumArrays::ErratumArrays(const std::vector<faults::Erratum>& errata,
                             const std::vector<PlacedErratum>& placed) {
  for (size_t i = 0; i < errata.size(); ++i) {
    const faults::Erratum& erratum = errata[i];
    id.Add(placed[i].id.value);
    first_counted.Add(erratum.first_stitch);
    last_counted.Add(erratum.last_stitch);
    counted_from.Add(static_cast<int>(erratum.counted_from));
    seen_in.Add(static_cast<int>(erratum.seen_in));
    remark.Add(erratum.remark);
  }
}

NewErratumArrays::NewErratumArrays(const std::vector<faults::Erratum>& errata,
                                   const std::vector<PlacedErratum>& placed) {
  for (size_t i = 0; i < errata.size(); ++i) {
    if (!placed[i].is_new) continue;
    const faults::Erratum& erratum = errata[i];
    ++count;
    id.Add(placed[i].id.value);
    row.Add(erratum.row);
    kind.Add(static_cast<int>(erratum.kind));
    was.Add(erratum.was);
    should_be.Add(erratum.should_be);
    chart_row.Add(placed[i].chart_row);
    first_stitch.Add(placed[i].stitches.first);
    last_stitch.Add(placed[i].stitches.last);
  }
}

ReportRow ReportFrom(const pqxx::row& row) {
  ReportRow read;
  read.pattern.value = row["pattern_id"].c_str();
  read.call.value = row["call_id"].c_str();
  read.seat.value = row["seat_id"].c_str();
  read.number = row["number"].as<int>();
  read.entered_by.value = row["entered_by"].c_str();
  read.on_behalf = row["on_behalf"].as<bool>();
  read.created_at = MomentOf(row["created"].as<int64_t>());
  testcalls::Report& report = read.report;
  report.size = row["size_name"].c_str();
  report.version = row["version_number"].as<int>();
  report.worked_from = static_cast<testcalls::WorkedFrom>(row["worked_from"].as<int>());
  report.hand = static_cast<chart::Hand>(row["hand"].as<int>());
  report.terms = static_cast<chart::Terms>(row["terms"].as<int>());
  report.yarn = YarnFrom(row);
  report.hook_mm = Measured(row["hook_mm"]);
  if (!row["ends"].is_null()) report.ends = static_cast<chart::Ends>(row["ends"].as<int>());
  ReadGauge(row, &report);
  report.how_blocked = row["how_blocked"].c_str();
  report.width_before_mm = Measured(row["width_before_mm"]);
  report.height_before_mm = Measured(row["height_before_mm"]);
  report.width_after_mm = Measured(row["width_after_mm"]);
  report.height_after_mm = Measured(row["height_after_mm"]);
  report.tape_step_mm = row["tape_step_mm"].as<double>();
  report.minutes = Measured(row["minutes"]);
  report.last_row = row["last_row"].as<int>();
  report.finished = row["finished"].as<bool>();
  report.remarks = row["remarks"].c_str();
  ReadErrata(row, &read);
  return read;
}

}  // namespace rowproof::storage
