#include "services/client/tables/reconciliation.h"

#include <cctype>
#include <cmath>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/client/tables/measures.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/quantities/measured.h"

namespace rowproof::client {
namespace {

using Side = Table::Side;

// The last part of a resource name, which distinguishes seats.
std::string LastPart(const std::string& name) {
  const size_t slash = name.rfind('/');
  return slash == std::string::npos ? name : name.substr(slash + 1);
}

std::string QuantityText(const v1::Quantity& quantity, double value, Units units) {
  const v1::QuantityKind kind = quantity.kind();
  if (kind == v1::QUANTITY_KIND_WIDTH || kind == v1::QUANTITY_KIND_HEIGHT) {
    return quantities::Extent(value, units);
  }
  if (kind == v1::QUANTITY_KIND_TIME) return quantities::StatedTime(value);
  return quantities::YarnLength(value * 1000, units);
}

// How far a logarithm of a ratio is off, in per cent.
std::string PerCent(double log_ratio) {
  return fmt::format("{:+.1f} %", 100 * std::expm1(log_ratio));
}

std::string RangeText(const v1::Interval& interval) {
  return PerCent(interval.low()) + " to " + PerCent(interval.high());
}

std::string SummaryText(const v1::Reconciliation& reconciliation, bool details) {
  Table table;
  table.Column("Quantity").Column("Used", Side::kRight).Column("Aside", Side::kRight);
  table.Column("Off by", Side::kRight);
  const double probability = reconciliation.quantities().empty()
                                 ? 0
                                 : reconciliation.quantities(0).mu().interval().coverage();
  const std::string interval = fmt::format("{:.0f} % interval", 100 * probability);
  table.Column(interval).Column("New maker, " + interval);
  for (const auto& q : reconciliation.quantities()) {
    table.Row({WordOf(q.quantity()), std::to_string(q.used_count()),
               std::to_string(q.set_aside_count()), PerCent(q.mu().median()),
               RangeText(q.mu().interval()), RangeText(q.new_maker().interval())});
  }
  std::string text = table.empty() ? "" : "\nMeasured against predicted\n" + table.Text();
  if (!details) return text;
  for (const auto& q : reconciliation.quantities()) {
    if (!q.note().empty()) text += Paragraph("  " + WordOf(q.quantity()) + ": ", q.note());
  }
  return text;
}

std::string MeasurementsText(const v1::ReconciledQuantity& quantity, Units units) {
  if (quantity.measurements().empty()) return {};
  Table table;
  table.Column("Seat").Column("Measured").Column("Predicted").Column("Ratio", Side::kRight);
  table.Column("Mark").Column("Why");
  for (const auto& m : quantity.measurements()) {
    std::string why = m.set_aside_note();
    for (const auto& reason : m.reasons()) why += (why.empty() ? "" : " ") + reason;
    table.Row({LastPart(m.seat()), QuantityText(quantity.quantity(), m.measured(), units),
               QuantityText(quantity.quantity(), m.predicted(), units),
               fmt::format("{:.3f}", m.ratio()),
               m.set_aside() ? "aside"
               : m.flagged() ? "look"
                             : "-",
               why.empty() ? "-" : why});
  }
  return "\n" + WordOf(quantity.quantity()) + "\n" + table.Text();
}

std::string Printed(const v1::PrintedLength& length, Units units) {
  const std::string m = fmt::format("{} m", length.rounded_m());
  const std::string yd = fmt::format("{} yd", length.rounded_yd());
  return units == Units::kMetric ? m + " (" + yd + ")" : yd + " (" + m + ")";
}

std::string AmountsText(const v1::Reconciliation& reconciliation, const Style& style) {
  const Units units = style.units;
  Table table;
  table.Column("Size").Column("Yarn").Column("Print").Column("Mass").Column("Balls", Side::kRight);
  table.Column("If worked loosely");
  if (style.details) table.Column("Predicted").Column("Strict");
  for (const auto& quantity : reconciliation.quantities()) {
    for (const auto& a : quantity.amounts()) {
      std::vector<std::string> cells{
          a.size(),
          Word(a.role()),
          Printed(a.suffices(), units),
          a.has_mass_g() ? quantities::Mass(static_cast<double>(a.mass_g()), units) : "-",
          a.has_ball_count() ? std::to_string(a.ball_count()) : "-",
          a.has_loose() ? Printed(a.loose(), units) : "-"};
      if (style.details) {
        cells.push_back(quantities::YarnLength(a.predicted_m() * 1000, units));
        cells.push_back(
            a.has_strict() ? Printed(a.strict(), units) + (a.strict_doubtful() ? " ?" : "") : "-");
      }
      table.Row(std::move(cells));
    }
  }
  return table.empty() ? "" : "\nYarn to print\n" + table.Text();
}

std::string GaugeText(const v1::Reconciliation& reconciliation) {
  Table table;
  table.Column("Gauge in 10 cm (3.94 in)").Column("Design", Side::kRight);
  table.Column("Testers", Side::kRight).Column("Off by", Side::kRight).Column("Interval");
  const auto add = [&](const char* name, const v1::GaugeAgreement& gauge) {
    if (gauge.tester_count() == 0) return;
    table.Row({name, quantities::OneDecimal(gauge.design_per_decimetre()),
               std::to_string(gauge.tester_count()),
               fmt::format("{:+.2f}", gauge.offset_per_decimetre()),
               gauge.has_offset_interval_per_decimetre()
                   ? fmt::format("{:+.2f} to {:+.2f}", gauge.offset_interval_per_decimetre().low(),
                                 gauge.offset_interval_per_decimetre().high())
                   : "-"});
  };
  add("stitches", reconciliation.stitch_gauge());
  add("rows", reconciliation.row_gauge());
  return table.empty() ? "" : "\n" + table.Text();
}

std::string RunText(int first, int last) {
  if (first == 0) return "-";
  return first == last ? std::to_string(first) : fmt::format("{}-{}", first, last);
}

std::string ErrataText(const v1::Reconciliation& reconciliation, bool details) {
  std::string text = "\nErrata: ";
  if (reconciliation.errata().empty()) return text + "none reported.\n";
  Table table;
  table.Column("Kind").Column("Rows", Side::kRight).Column("Stitches", Side::kRight);
  table.Column("Reports", Side::kRight).Column("Met too", Side::kRight);
  table.Column("Right for", Side::kRight).Column("Silent", Side::kRight);
  if (details) table.Column("Recomputed");
  for (const auto& cluster : reconciliation.errata()) {
    std::string recomputed;
    for (const auto& line : cluster.recomputed()) {
      recomputed += (recomputed.empty() ? "" : " ") + line;
    }
    std::vector<std::string> cells{Word(cluster.kind()),
                                   RunText(cluster.chart_row(), cluster.last_chart_row()),
                                   RunText(cluster.first_stitch(), cluster.last_stitch()),
                                   std::to_string(cluster.errata_size()),
                                   std::to_string(cluster.met_by_size()),
                                   std::to_string(cluster.right_for_size()),
                                   std::to_string(cluster.worked_without_reporting_count())};
    if (details) cells.push_back(recomputed.empty() ? "-" : recomputed);
    table.Row(std::move(cells));
  }
  return text + Counted(reconciliation.errata_size(), "fault", "faults") + "\n" + table.Text();
}

std::string LeftText(const v1::Undiscovered& left) {
  std::string text = "\nNot found yet: ";
  if (!left.sentence().empty()) return Paragraph("\nNot found yet: ", left.sentence());
  text += fmt::format("about {:.1f} faults", left.remaining());
  if (left.has_remaining_interval()) {
    text += fmt::format(" ({:.1f} to {:.1f})", left.remaining_interval().low(),
                        left.remaining_interval().high());
  }
  text += fmt::format(" in {} rows that two testers or more worked.\n", left.row_count());
  return left.caution().empty() ? text : text + Paragraph("  ", left.caution());
}

std::string CoverageText(const v1::Reconciliation& reconciliation) {
  Table table;
  table.Column("Size").Column("Worked rows").Column("By chart", Side::kRight);
  table.Column("By text", Side::kRight).Column("Testers", Side::kRight);
  for (const auto& size : reconciliation.coverage()) {
    for (const auto& run : size.runs()) {
      table.Row({size.size(), RunText(run.first_row(), run.last_row()),
                 std::to_string(run.chart_count()), std::to_string(run.text_count()),
                 std::to_string(run.tester_count())});
    }
  }
  return table.empty() ? "" : "\nWho worked which rows\n" + table.Text();
}

}  // namespace

std::string WordOf(const v1::Quantity& quantity) {
  std::string word = Word(quantity.kind());
  if (quantity.kind() != v1::QUANTITY_KIND_YARN) return word;
  word += "-" + Word(quantity.role());
  // Word keeps a colour's letter a capital; this one is part of a word.
  if (word[word.size() - 2] == '-') {
    word.back() = static_cast<char>(std::tolower(static_cast<unsigned char>(word.back())));
  }
  return word;
}

std::string TextOf(const v1::Reconciliation& reconciliation, const Style& style) {
  std::string text = fmt::format("{}\nVersion: {}\nMade: {}, from {}\n", reconciliation.name(),
                                 reconciliation.version(), TimeText(reconciliation.create_time()),
                                 Counted(reconciliation.reports_size(), "report", "reports"));
  text += AmountsText(reconciliation, style) + SummaryText(reconciliation, style.details);
  int flagged = 0;
  for (const auto& quantity : reconciliation.quantities()) {
    for (const auto& measurement : quantity.measurements())
      flagged += measurement.flagged() ? 1 : 0;
    if (style.details) text += MeasurementsText(quantity, style.units);
  }
  if (!style.details && flagged > 0) {
    text += fmt::format("Check {} (--details).\n", Counted(flagged, "measurement", "measurements"));
  }
  if (style.details) text += GaugeText(reconciliation);
  text += ErrataText(reconciliation, style.details);
  if (reconciliation.has_undiscovered()) text += LeftText(reconciliation.undiscovered());
  if (style.details) return text + CoverageText(reconciliation);
  return text + "\n--details shows measurements, gauge and who worked which rows.\n";
}

}  // namespace rowproof::client
