#include "services/client/tables/conversion.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/tables/chart.h"
#include "services/client/tables/measures.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/quantities/measured.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

std::string DesignWords(const v1::Design& design) {
  const bool working = design.chart().convention() == v1::CONVENTION_WORKING;
  return fmt::format("A {} chart for {}, {}, {}, ends {}", working ? "working" : "picture",
                     Word(design.technique()), Word(design.form()), Word(design.facing()),
                     Word(design.ends()));
}

// What to type with the written chart.
std::string OptionsOf(const v1::Design& design) {
  const bool working = design.chart().convention() == v1::CONVENTION_WORKING;
  std::string options =
      fmt::format("--technique {} --facing {} --ends {}", Word(design.technique()),
                  Word(design.facing()), Word(design.ends()));
  if (design.form() == v1::FORM_TUBE) options += " --form tube";
  if (working) options += " --chart working";
  if (design.has_stitch_band()) {
    options += fmt::format(" --stitch-band {}-{}", design.stitch_band().first(),
                           design.stitch_band().last());
  }
  if (design.has_row_band()) {
    options +=
        fmt::format(" --row-band {}-{}", design.row_band().first(), design.row_band().last());
  }
  return options;
}

std::string EditsText(const v1::ConvertedChart& converted, bool details) {
  if (converted.edits().empty()) return "No cell had to change.\n";
  std::string text = fmt::format(
      "{} of the chart as it was had to change: drops in edge stitches, or marks\nthat the other "
      "kind of chart cannot show.\n",
      Counted(converted.edit_count(), "cell", "cells"));
  return details ? text + "\n" +
                       EditTable(converted.edits(), converted.edit_count(), converted.edits_size())
                 : text;
}

std::string PartOf(double before, double after) {
  return before > 0 ? fmt::format("{:.0f} %", 100 * after / before) : "-";
}

// What the estimates say of one size, before and after.
void AddMeasures(const v1::ConvertedSize& size, Units units, Table& table) {
  const auto& before = size.before();
  const auto& after = size.after();
  const auto& was = before.before_blocking();
  const auto& now = after.before_blocking();
  table.Row({size.size(), "width",
             quantities::Extent(was.width_mm(), units, was.width_uncertainty_mm()),
             quantities::Extent(now.width_mm(), units, now.width_uncertainty_mm()),
             PartOf(was.width_mm(), now.width_mm())});
  table.Row({size.size(), "height",
             quantities::Extent(was.height_mm(), units, was.height_uncertainty_mm()),
             quantities::Extent(now.height_mm(), units, now.height_uncertainty_mm()),
             PartOf(was.height_mm(), now.height_mm())});
  table.Row({size.size(), "working time", quantities::WorkingTime(before.working_time_minutes()),
             quantities::WorkingTime(after.working_time_minutes()),
             PartOf(before.working_time_minutes(), after.working_time_minutes())});
  std::map<v1::YarnRole, double> lengths;
  for (const auto& yarn : before.yarns()) lengths[yarn.role()] = yarn.length_mm();
  for (const auto& yarn : after.yarns()) {
    const double length = lengths[yarn.role()];
    const double uncertainty = yarn.length_uncertainty_mm();
    table.Row({size.size(), "yarn " + Word(yarn.role()),
               quantities::YarnLength(length, units, uncertainty),
               quantities::YarnLength(yarn.length_mm(), units, uncertainty),
               PartOf(length, yarn.length_mm())});
  }
}

std::string SizeTable(const v1::ConvertedChart& converted, const Style& style) {
  using Side = Table::Side;
  Table table;
  table.Column("Size").Column("What").Column("Before").Column("After");
  table.Column("After, of before", Side::kRight);
  for (const auto& size : converted.sizes()) {
    table.Row({size.size(), "worked rows", std::to_string(size.row_count_before()),
               std::to_string(size.row_count_after()),
               PartOf(size.row_count_before(), size.row_count_after())});
    if (size.has_before()) AddMeasures(size, style.units, table);
    if (!style.details) break;
  }
  return table.Text();
}

// "3-10, 12 times".
std::string BandWords(bool there, const v1::Band& band, int repeats) {
  if (!there) return "-";
  return fmt::format("{}-{}, {}", band.first(), band.last(), Counted(repeats, "time", "times"));
}

std::string HowToGoOn(const v1::RepeatAnswer& answer) {
  std::string options;
  if (answer.has_stitch_band()) {
    options += fmt::format(" --stitch-band {}-{}", answer.stitch_band().first(),
                           answer.stitch_band().last());
  }
  if (answer.has_row_band()) {
    options +=
        fmt::format(" --row-band {}-{}", answer.row_band().first(), answer.row_band().last());
  }
  return fmt::format(
      "\n--out FILE writes the chart of the first answer; the options that go with it:\n"
      " {} --size drawn:{}x{}\n",
      options, answer.stitch_repeat_count(), answer.row_repeat_count());
}

// How the size of a chart was found, and how sure that is.
std::string HowSure(const v1::ImportReport& report) {
  if (report.format() == v1::CHART_FILE_FORMAT_CSV ||
      report.format() == v1::CHART_FILE_FORMAT_TSV) {
    return "an entry for each cell, sure";
  }
  std::string text;
  if (report.has_grid()) {
    const v1::RemovedGrid& grid = report.grid();
    if (grid.declared()) {
      return grid.line_width_x_px() > 0 || grid.line_width_y_px() > 0 ? "grid as you gave it"
                                                                      : "cells as you gave them";
    }
    const auto uneven = [](double pitch) {
      return pitch != static_cast<double>(std::llround(pitch));
    };
    text = uneven(grid.pitch_x_px()) || uneven(grid.pitch_y_px())
               ? "grid lines found, unevenly spaced: please compare the size with your chart"
               : "grid lines found, sure";
  } else {
    const int width = report.cell_width_px();
    const int height = report.cell_height_px();
    text = width == 1 && height == 1 ? "a pixel for each cell"
                                     : fmt::format("cells of {} x {} pixels", width, height);
    text += report.cell_size_certain()
                ? ", sure"
                : ", not sure: compare the size with your chart, and give --stitches and "
                  "--rows if it is another";
  }
  return report.marked_sides().empty() ? text : text + "; marks at the sides were cut off";
}

}  // namespace

std::string TextOf(const v1::ConvertedChart& converted, const Style& style) {
  std::string text =
      Sentence(DesignWords(converted.design())) + "\n" + EditsText(converted, style.details);
  if (!converted.changes().empty()) {
    text += "\nWhat changes for the maker\n";
    const int most = style.details ? converted.changes_size() : 5;
    for (int i = 0; i < std::min(most, converted.changes_size()); ++i) {
      text += Paragraph("  ", converted.changes(i).sentence());
    }
    if (most < converted.changes_size()) {
      text += fmt::format("  {} more with --details.\n", converted.changes_size() - most);
    }
  }
  text += "\n" + SizeTable(converted, style);
  if (!style.details && converted.sizes_size() > 1) {
    text += fmt::format("The first of {} sizes; --details shows all.\n", converted.sizes_size());
  }
  if (converted.sizes_size() > 0 && !converted.sizes(0).has_before()) {
    text += "Give a gauge and a yarn (--gauge, --weight-class) to see yarn and size too.\n";
  }
  text += "\n--out FILE writes the chart; the options that go with it:\n" +
          Paragraph("  ", OptionsOf(converted.design()));
  if (style.details) return text + "\nThe converted chart:\n" + TextOf(converted.check(), style);
  return text + (converted.check().workable()
                     ? "\nThe converted chart can be worked.\n"
                     : fmt::format("\nThe converted chart cannot be worked: {}.\n",
                                   Counted(converted.check().error_count(), "error", "errors")));
}

std::string TextOf(const v1::Repeats& repeats) {
  if (repeats.answers().empty()) return "Nothing is repeated, neither stitches nor rows.\n";
  using Side = Table::Side;
  Table table;
  table.Column("No.", Side::kRight).Column("Rows x stitches to draw").Column("Stitches");
  table.Column("Rows").Column("Multiple");
  int number = 0;
  for (const auto& answer : repeats.answers()) {
    const auto& chart = answer.reduced().chart();
    std::string multiple = answer.stitch_multiple();
    if (!multiple.empty()) multiple = "sts: " + multiple;
    if (!answer.row_multiple().empty()) {
      multiple += (multiple.empty() ? "rows: " : "; rows: ") + answer.row_multiple();
    }
    table.Row(
        {std::to_string(++number), fmt::format("{} x {}", chart.row_count(), chart.stitch_count()),
         BandWords(answer.has_stitch_band(), answer.stitch_band(), answer.stitch_repeat_count()),
         BandWords(answer.has_row_band(), answer.row_band(), answer.row_repeat_count()), multiple});
  }
  std::string text = table.Text();
  if (repeats.answer_count() > repeats.answers_size()) {
    text += fmt::format("The first {} of {} answers are shown; --answers takes more.\n",
                        repeats.answers_size(), repeats.answer_count());
  }
  return text + HowToGoOn(repeats.answers(0));
}

std::string ReadingLine(const v1::ImportedChart& imported, const std::string& file) {
  return Paragraph("", fmt::format("Read {} x {} from {} ({}).",
                                   Counted(imported.chart().stitch_count(), "stitch", "stitches"),
                                   Counted(imported.chart().row_count(), "row", "rows"),
                                   file == "-" ? "standard input" : text::OneLine(file),
                                   HowSure(imported.report())));
}

std::string TextOf(const v1::ImportedChart& imported) {
  std::string text;
  for (const auto& sentence : imported.report().sentences()) text += Paragraph("", sentence);
  if (imported.swap_colours_offered()) {
    text += "\nRow 1 shows colour B only. If A and B are exchanged, use --swap-colours.\n";
  }
  return text;
}

}  // namespace rowproof::client
