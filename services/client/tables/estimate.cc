#include "services/client/tables/estimate.h"

#include <cmath>
#include <vector>

#include "fmt/format.h"
#include "services/client/tables/measures.h"
#include "services/client/tables/table.h"

namespace rowproof::client {
namespace {

using Side = Table::Side;

template <typename Lines, typename SentenceOf>
std::string Listed(const char* head, const Lines& lines, const SentenceOf& sentence_of) {
  if (lines.empty()) return {};
  std::string text = fmt::format("\n{}\n", head);
  for (const auto& line : lines) text += Paragraph("  ", sentence_of(line));
  return text;
}

// "+1.2" or "-1.2".
std::string Signed(double value) { return fmt::format("{:+.1f}", value); }

std::string Percent(double share) { return fmt::format("{:.1f} %", 100 * share); }

std::string YarnTable(const v1::SizeEstimate& estimate) {
  Table table;
  table.Column("Yarn").Column("Length").Column("Std unc.", Side::kRight);
  table.Column("Range").Column("Mass").Column("Range");
  for (const auto& colour : estimate.colours()) {
    const auto& mass = colour.mass_interval_g();
    table.Row(
        {colour.colour(), YarnLength(colour.length_mm()),
         fmt::format("{:.1f} m", colour.length_uncertainty_mm() / 1000),
         fmt::format("{:.1f}-{:.1f} m", colour.length_low_mm() / 1000,
                     colour.length_high_mm() / 1000),
         colour.has_mass_g() ? Mass(colour.mass_g()) : "-",
         colour.has_mass_g() ? fmt::format("{:.0f}-{:.0f} g", mass.low(), mass.high()) : "-"});
  }
  return table.Text();
}

std::string PurchaseTable(const v1::SizeEstimate& estimate) {
  Table table;
  table.Column("Yarn").Column("Buy, m", Side::kRight).Column("or yd", Side::kRight);
  table.Column("Mass").Column("Balls", Side::kRight).Column("Left over");
  for (const auto& colour : estimate.colours()) {
    table.Row({colour.colour(), std::to_string(colour.published_length_m()),
               std::to_string(colour.published_length_yd()),
               colour.has_published_mass_g() ? Mass(colour.published_mass_g()) : "-",
               colour.has_ball_count() ? std::to_string(colour.ball_count()) : "-",
               colour.has_left_over_m() ? YarnLength(1000 * colour.left_over_m()) : "-"});
  }
  return table.Text();
}

std::vector<std::string> BreakdownRow(const std::string& yarn, const std::string& part,
                                      double length_mm, double share, bool has_mass,
                                      double mass_g) {
  return {yarn,
          part,
          OneDecimal(length_mm / 1000),
          OneDecimal(Yards(length_mm)),
          has_mass ? OneDecimal(mass_g) : "-",
          has_mass ? fmt::format("{:.2f}", mass_g / kGramsPerOunce) : "-",
          Percent(share)};
}

std::string BreakdownTable(const v1::SizeEstimate& estimate) {
  Table table;
  table.Column("Yarn").Column("Part").Column("m", Side::kRight).Column("yd", Side::kRight);
  table.Column("g", Side::kRight).Column("oz", Side::kRight).Column("Share", Side::kRight);
  for (const auto& colour : estimate.colours()) {
    for (const auto& part : colour.parts()) {
      table.Row(BreakdownRow(colour.colour(), part.part(), part.length_mm(), part.share(),
                             colour.has_mass_g(), colour.mass_g() * part.share()));
    }
    table.Row(BreakdownRow(colour.colour(), "all", colour.length_mm(), 1, colour.has_mass_g(),
                           colour.mass_g()));
  }
  return table.Text();
}

std::string RangeOf(const v1::Interval& interval) {
  return fmt::format("{:.1f}-{:.1f} cm", interval.low() / 10, interval.high() / 10);
}

std::string SizeLines(const v1::SizeEstimate& e) {
  Table table;
  table.Column("Finished").Column("Value").Column("Std unc.").Column("Range");
  table.Row({"width", Extent(e.width_mm()), Extent(e.width_uncertainty_mm()),
             RangeOf(e.width_interval_mm())});
  table.Row({"height", Extent(e.height_mm()), Extent(e.height_uncertainty_mm()),
             RangeOf(e.height_interval_mm())});
  if (e.has_after_blocking()) {
    const auto& after = e.after_blocking();
    table.Row({"width, blocked", Extent(after.width_mm()), Extent(after.width_uncertainty_mm()),
               RangeOf(after.width_interval_mm())});
    table.Row({"height, blocked", Extent(after.height_mm()), Extent(after.height_uncertainty_mm()),
               RangeOf(after.height_interval_mm())});
  }
  const auto& range = e.minutes_interval();
  table.Row({"working time", WorkingTime(e.minutes()), WorkingTime(e.minutes_uncertainty()),
             WorkingTime(range.low()) + " to " + WorkingTime(range.high())});
  return table.Text();
}

// What one stitch or row more in 100 mm changes.
std::string GaugeEffects(const v1::SizeEstimate& e) {
  Table table;
  table.Column("One more in 10 cm").Column("stitch", Side::kRight).Column("row", Side::kRight);
  table.Row({"width", Signed(e.width_one_stitch_more_mm() / 10) + " cm", "-"});
  table.Row({"height", "-", Signed(e.height_one_row_more_mm() / 10) + " cm"});
  for (const auto& colour : e.colours()) {
    table.Row({fmt::format("yarn {}", colour.colour()),
               Signed(colour.one_stitch_more_mm() / 1000) + " m",
               Signed(colour.one_row_more_mm() / 1000) + " m"});
  }
  return table.Text();
}

// Contributions to the standard uncertainty, the largest first.
std::string Contributions(const v1::SizeEstimate& e) {
  std::string text = "\nWhere the uncertainty comes from (std unc., the largest first)\n";
  const auto add = [&text](const std::string& what, const auto& contributions, double divisor,
                           const char* unit) {
    std::string line = what + ":";
    for (const auto& part : contributions) {
      line += fmt::format("{} {} {:.1f} {}", line.back() == ':' ? "" : ",", part.source(),
                          part.uncertainty() / divisor, unit);
    }
    text += Paragraph("  ", line + ".");
  };
  for (const auto& colour : e.colours()) {
    add("Yarn " + colour.colour(), colour.length_contributions(), 1000, "m");
  }
  add("Width", e.width_contributions(), 10, "cm");
  add("Height", e.height_contributions(), 10, "cm");
  add("Working time", e.minutes_contributions(), 60, "h");
  return text;
}

const char* EndsWord(v1::Ends ends) {
  switch (ends) {
    case v1::ENDS_CUT:
      return "cut";
    case v1::ENDS_CARRIED:
      return "carried";
    case v1::ENDS_WAITING:
      return "waiting";
    default:
      return "-";
  }
}

void AddCandidates(const google::protobuf::RepeatedPtrField<v1::SizeCandidate>& candidates,
                   Table* table) {
  for (const auto& candidate : candidates) {
    table->Row(
        {candidate.size().empty() ? "-" : candidate.size(),
         fmt::format("{}x{}", candidate.stitch_repeats(), candidate.row_repeats()),
         std::to_string(candidate.stitch_count()), std::to_string(candidate.row_count()),
         Extent(candidate.extent().width_mm()), Signed(candidate.width_off_mm() / 10) + " cm",
         Extent(candidate.extent().height_mm()), Signed(candidate.height_off_mm() / 10) + " cm"});
  }
}

}  // namespace

std::string TextOf(const v1::SizeEstimate& e) {
  std::string hook;
  if (e.has_hook_mm()) {
    hook = fmt::format(", hook {:g} mm{}", e.hook_mm(),
                       e.hook_us_label().empty() ? "" : " (US " + e.hook_us_label() + ")");
  }
  std::string text =
      Paragraph("", fmt::format("Size {}: {} stitches, {} worked rows, {} ends to weave in{}.",
                                e.size().empty() ? "as drawn" : "\"" + e.size() + "\"",
                                e.stitch_count(), e.row_count(), e.ends_to_weave_in_count(), hook));
  const double coverage = e.colours().empty() ? 0 : e.colours(0).length_coverage();
  text += fmt::format("Ranges hold with {:.0f} %.\n\n", 100 * coverage);
  text += YarnTable(e) + "\nWhat to buy\n" + PurchaseTable(e) + "\nWhat the yarn is for\n" +
          BreakdownTable(e) + "\n" + SizeLines(e) + "\n" + GaugeEffects(e) + Contributions(e);
  if (!e.calibration().empty()) {
    text += "\n" + Paragraph("", fmt::format("Calibration used: {}.", e.calibration()));
  }
  text += Listed("Notes", e.notes(), [](const auto& note) { return note.sentence(); });
  text += Listed("Assumed", e.assumed(), [](const auto& line) { return line; });
  text += Listed("Cautions", e.cautions(), [](const auto& caution) { return caution.sentence(); });
  return text;
}

std::string TextOf(const v1::EndsComparison& comparison) {
  Table table;
  table.Column("Ends").Column("Yarn").Column("To weave in", Side::kRight);
  table.Column("Work").Column("Weaving in").Column("Remark");
  for (const auto& way : comparison.ways()) {
    if (!way.fits()) {
      table.Row({EndsWord(way.ends()), "-", "-", "-", "-", "does not fit: " + way.remark()});
      continue;
    }
    table.Row({EndsWord(way.ends()), YarnLength(way.length_mm()),
               std::to_string(way.ends_to_weave_in_count()), WorkingTime(way.minutes()),
               WorkingTime(way.weaving_minutes()), way.remark().empty() ? "-" : way.remark()});
  }
  return fmt::format("What the ways with the ends cost, at {:g} min to weave in one end\n",
                     comparison.minutes_per_end()) +
         table.Text();
}

std::string TextOf(const v1::SizeChoice& choice) {
  Table table;
  table.Column("Size").Column("Repeats").Column("Stitches", Side::kRight);
  table.Column("Rows", Side::kRight).Column("Width").Column("off", Side::kRight);
  table.Column("Height").Column("off", Side::kRight);
  AddCandidates(choice.candidates(), &table);
  std::string text = "Repeats (stitch band x row band) that come nearest\n" + table.Text();
  Table own;
  own.Column("Size").Column("Repeats").Column("Stitches", Side::kRight);
  own.Column("Rows", Side::kRight).Column("Width").Column("off", Side::kRight);
  own.Column("Height").Column("off", Side::kRight);
  AddCandidates(choice.of_design(), &own);
  return text + "\nThe chart's own sizes\n" + own.Text();
}

}  // namespace rowproof::client
