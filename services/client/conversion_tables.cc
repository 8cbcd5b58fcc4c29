#include "services/client/conversion_tables.h"

#include <map>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/client/chart_tables.h"
#include "services/client/measures.h"
#include "services/client/table.h"
#include "services/client/views.h"

namespace rowproof::client {
namespace {

std::string DesignWords(const v1::Design& design) {
  const bool working = design.chart().convention() == v1::CONVENTION_WORKING;
  return fmt::format("A {} chart for {}, {}, {}, ends {}", working ? "working" : "picture",
                     Word(design.technique()), Word(design.form()), Word(design.facing()),
                     Word(design.ends()));
}

std::string EditsText(const v1::ConvertedChart& converted) {
  if (converted.edits().empty()) return "No cell had to change.\n";
  return fmt::format(
             "{} cell{} of the chart as it was had to change: drops in edge stitches, or marks\n"
             "that the other kind of chart cannot show.\n\n",
             converted.edit_count(), converted.edit_count() == 1 ? "" : "s") +
         EditTable(converted.edits(), "--json has all");
}

std::string SizeTable(const v1::ConvertedChart& converted) {
  using Side = Table::Side;
  const bool measured = converted.sizes_size() > 0 && converted.sizes(0).has_before();
  Table table;
  table.Column("Size").Column("Stitches", Side::kRight).Column("Worked rows");
  if (measured) table.Column("Width").Column("Height").Column("Time");
  for (const auto& size : converted.sizes()) {
    const auto from_to = [](const std::string& before, const std::string& after) {
      return before == after ? before : before + " -> " + after;
    };
    std::vector<std::string> cells = {
        size.size(), std::to_string(size.stitch_count()),
        from_to(std::to_string(size.row_count_before()), std::to_string(size.row_count_after()))};
    if (measured) {
      cells.push_back(from_to(Extent(size.before().width_mm()), Extent(size.after().width_mm())));
      cells.push_back(from_to(Extent(size.before().height_mm()), Extent(size.after().height_mm())));
      cells.push_back(
          from_to(WorkingTime(size.before().minutes()), WorkingTime(size.after().minutes())));
    }
    table.Row(cells);
  }
  return table.Text();
}

std::string YarnTable(const v1::ConvertedChart& converted) {
  using Side = Table::Side;
  Table table;
  table.Column("Size").Column("Yarn").Column("Before").Column("After");
  table.Column("After, of before", Side::kRight);
  for (const auto& size : converted.sizes()) {
    std::map<std::string, double> before;
    for (const auto& colour : size.before().colours()) before[colour.colour()] = colour.length_mm();
    for (const auto& colour : size.after().colours()) {
      const double was = before[colour.colour()];
      table.Row({size.size(), colour.colour(), YarnLength(was), YarnLength(colour.length_mm()),
                 was > 0 ? fmt::format("{:.0f} %", 100 * colour.length_mm() / was) : "-"});
    }
  }
  return table.empty() ? "" : "\n" + table.Text();
}

// "3-10, 12 times".
std::string BandWords(bool there, const v1::Band& band, int repeats) {
  if (!there) return "-";
  return fmt::format("{}-{}, {} times", band.first(), band.last(), repeats);
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
      options, answer.stitch_repeats(), answer.row_repeats());
}

}  // namespace

std::string TextOf(const v1::ConvertedChart& converted) {
  std::string text = DesignWords(converted.design()) + ".\n" + EditsText(converted);
  if (!converted.changes().empty()) {
    text += "\nWhat changes for the maker\n";
    for (const auto& change : converted.changes()) text += Paragraph("  ", change.sentence());
  }
  text += "\n" + SizeTable(converted) + YarnTable(converted);
  if (converted.sizes_size() > 0 && !converted.sizes(0).has_before()) {
    text += "With a gauge and a yarn (--gauge, --weight-class) this says yarn and size too.\n";
  }
  return text + "\nThe chart as it is now:\n" + TextOf(converted.check());
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
         BandWords(answer.has_stitch_band(), answer.stitch_band(), answer.stitch_repeats()),
         BandWords(answer.has_row_band(), answer.row_band(), answer.row_repeats()), multiple});
  }
  std::string text = table.Text();
  if (repeats.answer_count() > repeats.answers_size()) {
    text += fmt::format("The first {} of {} answers are shown; --answers takes more.\n",
                        repeats.answers_size(), repeats.answer_count());
  }
  return text + HowToGoOn(repeats.answers(0));
}

std::string TextOf(const v1::ImportedChart& imported) {
  std::string text = fmt::format("A chart of {} rows and {} stitches.\n",
                                 imported.chart().row_count(), imported.chart().stitch_count());
  for (const auto& sentence : imported.report().sentences()) text += Paragraph("", sentence);
  if (imported.swap_colours_offered()) {
    text += "\nRow 1 shows colour B only. If A and B are exchanged, use --swap-colours.\n";
  }
  return text;
}

}  // namespace rowproof::client
