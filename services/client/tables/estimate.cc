#include "services/client/tables/estimate.h"

#include <algorithm>
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

// What to have: with ranges and masses, or what to buy alone.
std::string YarnTable(const v1::SizeEstimate& estimate, const Style& style) {
  Table table;
  table.Column("Yarn").Column("Needs").Column("Range").Column("Buy");
  table.Column("Mass").Column("Balls", Side::kRight).Column("Left over");
  for (const auto& colour : estimate.colours()) {
    const double uncertainty = colour.length_uncertainty_mm();
    const bool metric = style.units == Units::kMetric;
    const std::string m = fmt::format("{} m", colour.published_length_m());
    const std::string yd = fmt::format("{} yd", colour.published_length_yd());
    table.Row({colour.colour(), YarnLength(colour.length_mm(), style.units, uncertainty),
               YarnRange(colour.length_low_mm(), colour.length_high_mm(), style.units, uncertainty),
               fmt::format("{} ({})", metric ? m : yd, metric ? yd : m),
               colour.has_published_mass_g() ? Mass(colour.published_mass_g(), style.units) : "-",
               colour.has_ball_count() ? std::to_string(colour.ball_count()) : "-",
               colour.has_left_over_m()
                   ? YarnLength(1000 * colour.left_over_m(), style.units, uncertainty)
                   : "-"});
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

std::string RangeOf(const v1::Interval& interval, double uncertainty_mm, Units units) {
  const double mm_per_unit = units == Units::kMetric ? 10 : kMmPerInch;
  return fmt::format("{}-{} {}",
                     Rounded(interval.low() / mm_per_unit, uncertainty_mm / mm_per_unit),
                     Rounded(interval.high() / mm_per_unit, uncertainty_mm / mm_per_unit),
                     units == Units::kMetric ? "cm" : "in");
}

// What is uncertain of the figures that are printed above.
std::string RangeTable(const v1::SizeEstimate& e, Units units) {
  Table table;
  table.Column("Figure").Column("Value").Column("Standard uncertainty").Column("Range");
  const auto add = [&](const char* what, double mm, double uncertainty, const v1::Interval& range) {
    table.Row({what, Extent(mm, units, uncertainty), Extent(uncertainty, units),
               RangeOf(range, uncertainty, units)});
  };
  add("width", e.width_mm(), e.width_uncertainty_mm(), e.width_interval_mm());
  add("height", e.height_mm(), e.height_uncertainty_mm(), e.height_interval_mm());
  if (e.has_after_blocking()) {
    const auto& after = e.after_blocking();
    add("width, blocked", after.width_mm(), after.width_uncertainty_mm(),
        after.width_interval_mm());
    add("height, blocked", after.height_mm(), after.height_uncertainty_mm(),
        after.height_interval_mm());
  }
  const auto& range = e.minutes_interval();
  table.Row({"working time", WorkingTime(e.minutes()), WorkingTime(e.minutes_uncertainty()),
             WorkingTime(range.low()) + " to " + WorkingTime(range.high())});
  for (const auto& colour : e.colours()) {
    const double uncertainty = colour.length_uncertainty_mm();
    table.Row({"yarn " + colour.colour(), YarnLength(colour.length_mm(), units, uncertainty),
               YarnLength(uncertainty, units),
               YarnRange(colour.length_low_mm(), colour.length_high_mm(), units, uncertainty)});
  }
  return table.Text();
}

// What one stitch or row more in 100 mm changes.
std::string GaugeEffects(const v1::SizeEstimate& e) {
  Table table;
  table.Column("With one more in 10 cm").Column("stitch", Side::kRight).Column("row", Side::kRight);
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
  std::string text =
      "\nWhere the uncertainty comes from (standard uncertainty, the largest first)\n";
  const auto add = [&text](const std::string& what, const auto& contributions, double divisor,
                           const char* unit) {
    std::string line = what + ":";
    for (const auto& part : contributions) {
      line += fmt::format("{} {} {:.1f} {}", line.back() == ':' ? "" : ",", part.source(),
                          part.uncertainty() / divisor, unit);
    }
    text += Paragraph("  ", Sentence(line));
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

std::string CandidateTable(const google::protobuf::RepeatedPtrField<v1::SizeCandidate>& candidates,
                           Units units) {
  Table table;
  table.Column("Size").Column("Repeats").Column("Stitches", Side::kRight);
  table.Column("Rows", Side::kRight).Column("Finished").Column("Width off", Side::kRight);
  table.Column("Height off", Side::kRight);
  const bool metric = units == Units::kMetric;
  const auto off = [metric](double mm) {
    return fmt::format("{:+.1f} {}", mm / (metric ? 10 : kMmPerInch), metric ? "cm" : "in");
  };
  for (const auto& candidate : candidates) {
    const auto& extent = candidate.extent();
    table.Row(
        {candidate.size().empty() ? "-" : candidate.size(),
         fmt::format("{}x{}", candidate.stitch_repeats(), candidate.row_repeats()),
         std::to_string(candidate.stitch_count()), std::to_string(candidate.row_count()),
         WidthAndHeight(extent.width_mm(), extent.height_mm(), units,
                        std::max(extent.width_uncertainty_mm(), extent.height_uncertainty_mm())),
         off(candidate.width_off_mm()), off(candidate.height_off_mm())});
  }
  return table.Text();
}

// Size, time and ends in a line each.
std::string Headline(const v1::SizeEstimate& e, const Style& style) {
  std::string hook;
  if (e.has_hook_mm()) {
    hook = fmt::format(", hook {:g} mm{}", e.hook_mm(),
                       e.hook_us_label().empty() ? "" : " (US " + e.hook_us_label() + ")");
  }
  std::string text =
      Paragraph("", Sentence(fmt::format(
                        "{}: {}, {}{}", e.size().empty() ? "As drawn" : "Size \"" + e.size() + "\"",
                        Counted(e.stitch_count(), "stitch", "stitches"),
                        Counted(e.row_count(), "worked row", "worked rows"), hook)));
  text +=
      "Finished: " + WidthAndHeight(e.width_mm(), e.height_mm(), style.units,
                                    std::max(e.width_uncertainty_mm(), e.height_uncertainty_mm()));
  if (e.has_after_blocking()) {
    const auto& after = e.after_blocking();
    text += "; blocked: " +
            WidthAndHeight(after.width_mm(), after.height_mm(), style.units,
                           std::max(after.width_uncertainty_mm(), after.height_uncertainty_mm()));
  }
  return text + fmt::format("\nWorking time: about {}; {} to weave in\n", WorkingTime(e.minutes()),
                            Counted(e.ends_to_weave_in_count(), "end", "ends"));
}

// How much more --details shows.
std::string WhatIsLeft(const v1::SizeEstimate& e) {
  std::vector<std::string> left;
  if (e.notes_size() > 0) left.push_back(Counted(e.notes_size(), "note", "notes"));
  if (e.cautions_size() > 0) left.push_back(Counted(e.cautions_size(), "caution", "cautions"));
  std::string text;
  for (const std::string& one : left) text += one + ", ";
  return Paragraph("", fmt::format("--details shows {}parts, assumptions and ranges.", text));
}

std::string Details(const v1::SizeEstimate& e, const Style& style) {
  std::string text = "\nWhat the yarn is for\n" + BreakdownTable(e) + "\n" +
                     RangeTable(e, style.units) + "\n" + GaugeEffects(e) + Contributions(e);
  text += Listed("Notes", e.notes(), [](const auto& note) { return note.sentence(); });
  text += Listed("Assumed", e.assumed(), [](const auto& line) { return line; });
  return text +
         Listed("Cautions", e.cautions(), [](const auto& caution) { return caution.sentence(); });
}

}  // namespace

std::string TextOf(const v1::SizeEstimate& e, const Style& style) {
  const double coverage = e.colours().empty() ? 0 : e.colours(0).length_coverage();
  std::string text = Headline(e, style) + "\n" + YarnTable(e, style);
  text += fmt::format("Ranges hold with a probability of {:.0f} %.\n", 100 * coverage);
  if (!e.calibration().empty()) {
    text += Paragraph("", Sentence("Calibration used: " + e.calibration()));
  }
  return text + (style.details ? Details(e, style) : WhatIsLeft(e));
}

std::string SizeTable(const google::protobuf::RepeatedPtrField<v1::SizeEstimate>& estimates,
                      Units units) {
  Table table;
  table.Column("Size").Column("Stitches", Side::kRight).Column("Rows", Side::kRight);
  table.Column("Finished").Column("Time").Column("Buy");
  for (const auto& e : estimates) {
    std::string yarns;
    for (const auto& colour : e.colours()) {
      yarns +=
          fmt::format("{}{} {}", yarns.empty() ? "" : ", ", colour.colour(),
                      units == Units::kMetric ? fmt::format("{} m", colour.published_length_m())
                                              : fmt::format("{} yd", colour.published_length_yd()));
    }
    table.Row({e.size().empty() ? "as drawn" : e.size(), std::to_string(e.stitch_count()),
               std::to_string(e.row_count()),
               WidthAndHeight(e.width_mm(), e.height_mm(), units,
                              std::max(e.width_uncertainty_mm(), e.height_uncertainty_mm())),
               WorkingTime(e.minutes()), yarns});
  }
  return table.Text();
}

std::string TextOf(const v1::EndsComparison& comparison, const Style& style) {
  Table table;
  table.Column("Ends").Column("Yarn").Column("To weave in", Side::kRight);
  table.Column("Work").Column("Weaving in").Column("Remark");
  for (const auto& way : comparison.ways()) {
    if (!way.fits()) {
      table.Row({EndsWord(way.ends()), "-", "-", "-", "-", "does not fit: " + way.remark()});
      continue;
    }
    table.Row({EndsWord(way.ends()), YarnLength(way.length_mm(), style.units),
               std::to_string(way.ends_to_weave_in_count()), WorkingTime(way.minutes()),
               way.ends_to_weave_in_count() == 0 ? "-" : WorkingTime(way.weaving_minutes()),
               way.remark().empty() ? "-" : way.remark()});
  }
  return fmt::format("Cutting, carrying or waiting: yarn and time ({:g} min to weave in an end)\n",
                     comparison.minutes_per_end()) +
         table.Text();
}

std::string TextOf(const v1::SizeChoice& choice, const Style& style) {
  return "Nearest repeats (stitch band x row band)\n" +
         CandidateTable(choice.candidates(), style.units) + "\nThe chart's own sizes\n" +
         CandidateTable(choice.of_design(), style.units);
}

}  // namespace rowproof::client
