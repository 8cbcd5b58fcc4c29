#include "services/client/tables/estimate.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "fmt/format.h"
#include "services/client/tables/measures.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/quantities/measured.h"
#include "services/quantities/units.h"

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

// "A", or "A Oat" if the design names its colours.
std::string Called(v1::YarnRole role, const Style& style) {
  const auto index = static_cast<size_t>(role) - 1;
  const bool named = role != v1::YARN_ROLE_UNSPECIFIED && role != v1::YARN_ROLE_BORDER &&
                     index < style.colour_names.size();
  return named ? Word(role) + " " + style.colour_names[index] : Word(role);
}

// "+1.2" or "-1.2".
std::string Signed(double value) { return fmt::format("{:+.1f}", value); }

std::string Percent(double share) { return fmt::format("{:.1f} %", 100 * share); }

std::string WidthAndHeight(const v1::Extent& extent, Units units) {
  return quantities::WidthAndHeight(
      extent.width_mm(), extent.height_mm(), units,
      std::max(extent.width_uncertainty_mm(), extent.height_uncertainty_mm()));
}

std::string LengthRange(const v1::Interval& length_mm, Units units, double uncertainty_mm) {
  return quantities::YarnRange(length_mm.low(), length_mm.high(), units, uncertainty_mm);
}

// What to have: with ranges and masses, or what to buy alone.
std::string YarnTable(const v1::SizeEstimate& estimate, const Style& style) {
  Table table;
  table.Column("Yarn").Column("Needs").Column("Range").Column("Buy");
  table.Column("Mass").Column("Balls", Side::kRight).Column("Left over");
  for (const auto& yarn : estimate.yarns()) {
    const double uncertainty = yarn.length_uncertainty_mm();
    const bool metric = style.units == Units::kMetric;
    const std::string m = fmt::format("{} m", yarn.published_length_m());
    const std::string yd = fmt::format("{} yd", yarn.published_length_yd());
    table.Row(
        {Called(yarn.role(), style),
         quantities::YarnLength(yarn.length_mm(), style.units, uncertainty),
         LengthRange(yarn.length_interval_mm(), style.units, uncertainty),
         fmt::format("{} ({})", metric ? m : yd, metric ? yd : m),
         yarn.has_published_mass_g() ? quantities::Mass(yarn.published_mass_g(), style.units) : "-",
         yarn.has_ball_count() ? std::to_string(yarn.ball_count()) : "-",
         yarn.has_remaining_length_m()
             ? quantities::YarnLength(1000 * yarn.remaining_length_m(), style.units, uncertainty)
             : "-"});
  }
  return table.Text();
}

std::vector<std::string> BreakdownRow(const std::string& yarn, const std::string& part,
                                      double length_mm, double share,
                                      const std::optional<double>& mass_g, Units units) {
  const bool metric = units == Units::kMetric;
  const std::string metres = quantities::OneDecimal(length_mm / 1000);
  const std::string yards = quantities::OneDecimal(quantities::Yards(length_mm));
  std::string grams = "-";
  std::string ounces = "-";
  if (mass_g.has_value()) {
    grams = quantities::OneDecimal(*mass_g);
    ounces = fmt::format("{:.2f}", *mass_g / quantities::kGramsPerOunce);
  }
  return {yarn,
          part,
          metric ? metres : yards,
          metric ? yards : metres,
          metric ? grams : ounces,
          metric ? ounces : grams,
          Percent(share)};
}

// The reader's units stand first.
std::string BreakdownTable(const v1::SizeEstimate& estimate, const Style& style) {
  const bool metric = style.units == Units::kMetric;
  Table table;
  table.Column("Yarn").Column("Part");
  table.Column(metric ? "m" : "yd", Side::kRight).Column(metric ? "yd" : "m", Side::kRight);
  table.Column(metric ? "g" : "oz", Side::kRight).Column(metric ? "oz" : "g", Side::kRight);
  table.Column("Share", Side::kRight);
  for (const auto& yarn : estimate.yarns()) {
    const std::string called = Called(yarn.role(), style);
    const auto mass_of = [&yarn](double share) {
      return yarn.has_mass_g() ? std::optional(yarn.mass_g() * share) : std::nullopt;
    };
    for (const auto& part : yarn.parts()) {
      table.Row(BreakdownRow(called, Word(part.kind()), part.length_mm(), part.share(),
                             mass_of(part.share()), style.units));
    }
    table.Row(BreakdownRow(called, "all", yarn.length_mm(), 1, mass_of(1), style.units));
  }
  return table.Text();
}

std::string RangeOf(const v1::Interval& interval, double uncertainty_mm, Units units) {
  const double mm_per_unit = units == Units::kMetric ? 10 : quantities::kMmPerInch;
  return fmt::format(
      "{}-{} {}", quantities::Rounded(interval.low() / mm_per_unit, uncertainty_mm / mm_per_unit),
      quantities::Rounded(interval.high() / mm_per_unit, uncertainty_mm / mm_per_unit),
      units == Units::kMetric ? "cm" : "in");
}

// Which of the figures above are uncertain, and why.
std::string RangeTable(const v1::SizeEstimate& e, const Style& style) {
  const Units units = style.units;
  Table table;
  table.Column("Figure").Column("Value").Column("Standard uncertainty").Column("Range");
  const auto add = [&](const char* what, double mm, double uncertainty, const v1::Interval& range) {
    table.Row({what, quantities::Extent(mm, units, uncertainty),
               quantities::Extent(uncertainty, units), RangeOf(range, uncertainty, units)});
  };
  const auto& before = e.before_blocking();
  add("width", before.width_mm(), before.width_uncertainty_mm(), before.width_interval_mm());
  add("height", before.height_mm(), before.height_uncertainty_mm(), before.height_interval_mm());
  if (e.has_after_blocking()) {
    const auto& after = e.after_blocking();
    add("width, blocked", after.width_mm(), after.width_uncertainty_mm(),
        after.width_interval_mm());
    add("height, blocked", after.height_mm(), after.height_uncertainty_mm(),
        after.height_interval_mm());
  }
  const auto& range = e.working_time_interval_minutes();
  table.Row(
      {"working time", quantities::WorkingTime(e.working_time_minutes()),
       quantities::WorkingTime(e.working_time_uncertainty_minutes()),
       quantities::WorkingTime(range.low()) + " to " + quantities::WorkingTime(range.high())});
  for (const auto& yarn : e.yarns()) {
    const double uncertainty = yarn.length_uncertainty_mm();
    table.Row({"yarn " + Called(yarn.role(), style),
               quantities::YarnLength(yarn.length_mm(), units, uncertainty),
               quantities::YarnLength(uncertainty, units),
               LengthRange(yarn.length_interval_mm(), units, uncertainty)});
  }
  return table.Text();
}

// A unit and how many mm it has.
struct LengthUnit {
  double mm;
  const char* name;
};

LengthUnit ExtentUnit(Units units) {
  return units == Units::kMetric ? LengthUnit{10, "cm"} : LengthUnit{quantities::kMmPerInch, "in"};
}

LengthUnit YarnUnit(Units units) {
  return units == Units::kMetric ? LengthUnit{1000, "m"} : LengthUnit{quantities::kMmPerYard, "yd"};
}

// What one stitch or row more in 10 cm (3.94 in) changes.
std::string GaugeEffects(const v1::SizeEstimate& e, const Style& style) {
  const Units units = style.units;
  Table table;
  table.Column("With one more in 10 cm").Column("Stitch", Side::kRight);
  table.Column("Row", Side::kRight);
  const auto signed_in = [](double mm, const LengthUnit& unit) {
    return fmt::format("{} {}", Signed(mm / unit.mm), unit.name);
  };
  const LengthUnit extent = ExtentUnit(units);
  const LengthUnit length = YarnUnit(units);
  table.Row({"width", signed_in(e.width_per_stitch_mm(), extent), "-"});
  table.Row({"height", "-", signed_in(e.height_per_row_mm(), extent)});
  for (const auto& yarn : e.yarns()) {
    table.Row({"yarn " + Called(yarn.role(), style), signed_in(yarn.length_per_stitch_mm(), length),
               signed_in(yarn.length_per_row_mm(), length)});
  }
  return table.Text();
}

// Contributions to the standard uncertainty, the largest first.
std::string Contributions(const v1::SizeEstimate& e, const Style& style) {
  const Units units = style.units;
  std::string text =
      "\nWhere the uncertainty comes from (standard uncertainty, the largest first)\n";
  const LengthUnit extent = ExtentUnit(units);
  const LengthUnit length = YarnUnit(units);
  const auto add = [&text](const std::string& what, const auto& contributions, double divisor,
                           const char* unit) {
    std::string line = what + ":";
    for (const auto& part : contributions) {
      line += fmt::format("{} {} {:.1f} {}", line.back() == ':' ? "" : ",", Word(part.source()),
                          part.uncertainty() / divisor, unit);
    }
    text += Paragraph("  ", Sentence(line));
  };
  for (const auto& yarn : e.yarns()) {
    add("Yarn " + Called(yarn.role(), style), yarn.length_contributions(), length.mm, length.name);
  }
  add("Width", e.before_blocking().width_contributions(), extent.mm, extent.name);
  add("Height", e.before_blocking().height_contributions(), extent.mm, extent.name);
  add("Working time", e.working_time_contributions(), 60, "h");
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

// How far each is off is shown of the sides that were wished for: the others are off by nothing.
std::string CandidateTable(const google::protobuf::RepeatedPtrField<v1::SizeCandidate>& candidates,
                           Units units) {
  Table table;
  bool width = false;
  bool height = false;
  for (const auto& candidate : candidates) {
    width |= candidate.width_excess_mm() != 0;
    height |= candidate.height_excess_mm() != 0;
  }
  table.Column("Size").Column("Repeats").Column("Stitches", Side::kRight);
  table.Column("Rows", Side::kRight).Column("Finished");
  if (width) table.Column("Width off", Side::kRight);
  if (height) table.Column("Height off", Side::kRight);
  const bool metric = units == Units::kMetric;
  const auto off = [metric](double mm) {
    return fmt::format("{:+.1f} {}", mm / (metric ? 10 : quantities::kMmPerInch),
                       metric ? "cm" : "in");
  };
  for (const auto& candidate : candidates) {
    const auto& extent = candidate.extent();
    std::vector<std::string> cells{
        candidate.size().empty() ? "-" : candidate.size(),
        fmt::format("{}x{}", candidate.stitch_repeat_count(), candidate.row_repeat_count()),
        std::to_string(candidate.stitch_count()), std::to_string(candidate.row_count()),
        // As exactly as what it is off by.
        quantities::WidthAndHeight(extent.width_mm(), extent.height_mm(), units, 0)};
    if (width) cells.push_back(off(candidate.width_excess_mm()));
    if (height) cells.push_back(off(candidate.height_excess_mm()));
    table.Row(std::move(cells));
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
  text += "Finished: " + WidthAndHeight(e.before_blocking(), style.units);
  if (e.has_after_blocking()) {
    text += "; blocked: " + WidthAndHeight(e.after_blocking(), style.units);
  }
  return text + fmt::format("\nWorking time: about {}; {} to weave in\n",
                            quantities::WorkingTime(e.working_time_minutes()),
                            Counted(e.woven_end_count(), "end", "ends"));
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
  std::string text = "\nWhat the yarn is for\n" + BreakdownTable(e, style) + "\n" +
                     RangeTable(e, style) + "\n" + GaugeEffects(e, style) + Contributions(e, style);
  text += Listed("Notes", e.notes(), [](const auto& note) { return note.sentence(); });
  text += Listed("Assumed", e.assumptions(), [](const auto& line) { return line; });
  return text +
         Listed("Cautions", e.cautions(), [](const auto& caution) { return caution.sentence(); });
}

}  // namespace

std::string TextOf(const v1::SizeEstimate& e, const Style& style) {
  const double coverage = e.yarns().empty() ? 0 : e.yarns(0).length_interval_mm().coverage();
  std::string text = Headline(e, style) + "\n" + YarnTable(e, style);
  text += fmt::format("Ranges hold with a probability of {:.0f} %.\n", 100 * coverage);
  if (!e.calibration().empty()) {
    text += Paragraph("", Sentence("Calibration used: " + e.calibration()));
  }
  return text + (style.details ? Details(e, style) : WhatIsLeft(e));
}

std::string SizeTable(const google::protobuf::RepeatedPtrField<v1::SizeEstimate>& estimates,
                      const Style& style) {
  const Units units = style.units;
  Table table;
  table.Column("Size").Column("Stitches", Side::kRight).Column("Rows", Side::kRight);
  table.Column("Finished").Column("Time").Column("Buy");
  for (const auto& e : estimates) {
    std::string yarns;
    for (const auto& yarn : e.yarns()) {
      yarns +=
          fmt::format("{}{} {}", yarns.empty() ? "" : ", ", Called(yarn.role(), style),
                      units == Units::kMetric ? fmt::format("{} m", yarn.published_length_m())
                                              : fmt::format("{} yd", yarn.published_length_yd()));
    }
    table.Row({e.size().empty() ? "as drawn" : e.size(), std::to_string(e.stitch_count()),
               std::to_string(e.row_count()), WidthAndHeight(e.before_blocking(), units),
               quantities::WorkingTime(e.working_time_minutes()), yarns});
  }
  return table.Text();
}

std::string TextOf(const v1::EndsComparison& comparison, const Style& style) {
  Table table;
  table.Column("Ends").Column("Yarn").Column("To weave in", Side::kRight);
  table.Column("Work").Column("Weaving in").Column("Remark");
  for (const auto& way : comparison.methods()) {
    if (!way.fits()) {
      table.Row({EndsWord(way.ends()), "-", "-", "-", "-", "does not fit: " + way.remark()});
      continue;
    }
    table.Row(
        {EndsWord(way.ends()), quantities::YarnLength(way.length_mm(), style.units),
         std::to_string(way.woven_end_count()), quantities::WorkingTime(way.working_time_minutes()),
         way.woven_end_count() == 0 ? "-" : quantities::WorkingTime(way.weaving_time_minutes()),
         way.remark().empty() ? "-" : way.remark()});
  }
  return fmt::format("Cutting, carrying or waiting: yarn and time ({:g} min to weave in an end)\n",
                     comparison.minutes_per_end()) +
         table.Text();
}

std::string TextOf(const v1::SizeChoice& choice, const Style& style) {
  return "Nearest repeats (stitch band x row band)\n" +
         CandidateTable(choice.candidates(), style.units) + "\nThe chart's own sizes\n" +
         CandidateTable(choice.design_sizes(), style.units);
}

}  // namespace rowproof::client
