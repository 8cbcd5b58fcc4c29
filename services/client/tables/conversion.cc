#include "services/client/tables/conversion.h"

#include <map>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "services/client/tables/chart.h"
#include "services/client/tables/measures.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"

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

std::string EditsText(const v1::ConvertedChart& converted) {
  if (converted.edits().empty()) return "No cell had to change.\n";
  return fmt::format(
             "{} cell{} of the chart as it was had to change: drops in edge stitches, or marks\n"
             "that the other kind of chart cannot show.\n\n",
             converted.edit_count(), converted.edit_count() == 1 ? "" : "s") +
         EditTable(converted.edits(), "--json has all");
}

std::string PartOf(double before, double after) {
  return before > 0 ? fmt::format("{:.0f} %", 100 * after / before) : "-";
}

// What the estimates say of one size, before and after.
void AddMeasures(const v1::ConvertedSize& size, Table& table) {
  const auto& before = size.before();
  const auto& after = size.after();
  table.Row({size.size(), "width", Extent(before.width_mm()), Extent(after.width_mm()),
             PartOf(before.width_mm(), after.width_mm())});
  table.Row({size.size(), "height", Extent(before.height_mm()), Extent(after.height_mm()),
             PartOf(before.height_mm(), after.height_mm())});
  table.Row({size.size(), "working time", WorkingTime(before.minutes()),
             WorkingTime(after.minutes()), PartOf(before.minutes(), after.minutes())});
  std::map<std::string, double> was;
  for (const auto& colour : before.colours()) was[colour.colour()] = colour.length_mm();
  for (const auto& colour : after.colours()) {
    const double length = was[colour.colour()];
    table.Row({size.size(), "yarn " + colour.colour(), YarnLength(length),
               YarnLength(colour.length_mm()), PartOf(length, colour.length_mm())});
  }
}

std::string SizeTable(const v1::ConvertedChart& converted) {
  using Side = Table::Side;
  Table table;
  table.Column("Size").Column("What").Column("Before").Column("After");
  table.Column("After, of before", Side::kRight);
  for (const auto& size : converted.sizes()) {
    table.Row({size.size(), "worked rows", std::to_string(size.row_count_before()),
               std::to_string(size.row_count_after()),
               PartOf(size.row_count_before(), size.row_count_after())});
    if (size.has_before()) AddMeasures(size, table);
  }
  return table.Text();
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
  text += "\n" + SizeTable(converted);
  if (converted.sizes_size() > 0 && !converted.sizes(0).has_before()) {
    text += "With a gauge and a yarn (--gauge, --weight-class) this says yarn and size too.\n";
  }
  text += "\n--out FILE writes the chart; the options that go with it:\n" +
          Paragraph("  ", OptionsOf(converted.design()));
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
