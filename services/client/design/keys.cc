#include "services/client/design/keys.h"

#include "services/client/design/tables.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/quantities.h"

namespace rowproof::client {
namespace {

// The accessor of one member.
#define ROWPROOF_FIELD(member) [](DesignOptions& o) -> DesignField { return &o.member; }

void CheckBand(const std::string& name, const std::string& text) { BandOf(name, text); }
void CheckRowColours(const std::string& name, const std::string& text) { RowColoursOf(name, text); }
void CheckMeaning(const std::string& name, const std::string& text) { MeaningOf(name, text); }
void CheckGrid(const std::string& name, const std::string& text) { GridOf(name, text); }
void CheckCell(const std::string& name, const std::string& text) { CellOf(name, text); }
void CheckCrop(const std::string& name, const std::string& text) { CropOf(name, text); }
void CheckLength(const std::string& name, const std::string& text) { LengthMm(name, text); }

DesignKey Word(const char* table, const char* name, const char* option, const char* what,
               const char* usual, const Words& (*words)(), DesignField (*field)(DesignOptions&)) {
  DesignKey key{table, name, option, what, usual, "", field};
  key.words = words;
  key.example = "\"" + words().front() + "\"";
  return key;
}

DesignKey Text(const char* table, const char* name, const char* option, const char* what,
               const char* usual, const char* example, DesignField (*field)(DesignOptions&),
               void (*check)(const std::string&, const std::string&) = nullptr) {
  DesignKey key{table, name, option, what, usual, example, field};
  key.check = check;
  return key;
}

DesignKey FileName(const char* table, const char* name, const char* option, const char* what,
                   const char* example, DesignField (*field)(DesignOptions&)) {
  DesignKey key{table, name, option, what, "none", example, field};
  key.file = true;
  return key;
}

DesignKey Number(const char* table, const char* name, const char* option, const char* what,
                 const char* usual, const char* example, double low, double high,
                 DesignField (*field)(DesignOptions&)) {
  DesignKey key{table, name, option, what, usual, example, field};
  key.low = low;
  key.high = high;
  return key;
}

DesignKey Switch(const char* table, const char* name, const char* option, const char* what,
                 DesignField (*field)(DesignOptions&)) {
  return {table, name, option, what, "no", "true", field};
}

void AddWorking(std::vector<DesignKey>& keys) {
  keys.push_back(Word("", "technique", "--technique", "Technique", "spike", Techniques,
                      ROWPROOF_FIELD(chart.technique)));
  keys.push_back(Word("", "facing", "--facing", "Facing", "as usual with the technique", Facings,
                      ROWPROOF_FIELD(chart.facing)));
  keys.push_back(Word("", "ends", "--ends", "Ends", "as usual with the technique", EndsWords,
                      ROWPROOF_FIELD(chart.ends)));
  keys.push_back(Word("", "form", "--form", "Form", "flat", Forms, ROWPROOF_FIELD(chart.form)));
  keys.push_back(Text("", "row_colours", "--row-colours", "Row colours, from the bottom",
                      "A and B in turn", "\"AB*20 C\"", ROWPROOF_FIELD(chart.row_colours),
                      CheckRowColours));
  keys.push_back(Word("", "foundation", "--foundation", "Foundation", "chain", Foundations,
                      ROWPROOF_FIELD(materials.foundation)));
  keys.push_back(Word("", "foundation_colour", "--foundation-colour", "Foundation colour",
                      "row 1's", ColourLetters, ROWPROOF_FIELD(materials.foundation_colour)));
  keys.push_back(Number("", "hook_mm", "--hook-mm", "Hook, mm", "not said", "5.5", 0.3, 50,
                        ROWPROOF_FIELD(materials.hook_mm)));
  keys.push_back(Number("", "tail_mm", "--tail-mm", "Cut tails, mm", "150", "150", 0, 10000,
                        ROWPROOF_FIELD(materials.tail_mm)));
  keys.push_back(Text("", "fringe_of_tails", "--fringe-of-tails", "Fringe of the tails", "none",
                      "\"10 cm\"", ROWPROOF_FIELD(materials.fringe_of_tails), CheckLength));
  keys.push_back(Number("", "carried_slack", "--slack", "Slack of a carried strand", "0.05", "0.05",
                        0, 10, ROWPROOF_FIELD(materials.slack)));
  keys.push_back(
      Word("", "item", "--item", "Item", "other", Items, ROWPROOF_FIELD(materials.item)));
  keys.push_back(Switch("", "for_small_child", "--for-small-child", "For a small child",
                        ROWPROOF_FIELD(materials.for_small_child)));
  keys.push_back(Switch("", "gauge_of_other_fabric", "--gauge-of-other-fabric",
                        "Gauge counted in another fabric", ROWPROOF_FIELD(materials.other_fabric)));
  keys.push_back(Number("", "assurance", "--assurance", "Probability that what is bought is enough",
                        "0.95", "0.95", 0.5, 0.99, ROWPROOF_FIELD(materials.assurance)));
  keys.push_back(FileName("", "calibration", "--calibration", "Calibration", "\"oat.json\"",
                          ROWPROOF_FIELD(materials.calibration)));
}

void AddReading(std::vector<DesignKey>& keys) {
  keys.push_back(Word("chart", "cells", "--chart", "What the chart's cells show", "picture", Charts,
                      ROWPROOF_FIELD(chart.chart)));
  keys.push_back(Number("chart", "stitches", "--stitches", "Stitches of the chart", "found", "24",
                        1, 4000, ROWPROOF_FIELD(chart.stitch_count)));
  keys.push_back(Number("chart", "rows", "--rows", "Rows of the chart", "found", "20", 1, 4000,
                        ROWPROOF_FIELD(chart.row_count)));
  keys.push_back(Text("chart", "cell", "--cell", "Width and height of a cell, pixels", "found",
                      "\"12x15\"", ROWPROOF_FIELD(chart.cell), CheckCell));
  keys.push_back(Number("chart", "cell_pixels", "--cell-scale", "Pixels along a cell", "found",
                        "12", 0, 1000, ROWPROOF_FIELD(chart.cell_scale)));
  keys.push_back(Text("chart", "grid", "--grid", "Grid lines, pixels", "found", "\"12/1\"",
                      ROWPROOF_FIELD(chart.grid), CheckGrid));
  keys.push_back(
      Switch("chart", "no_grid", "--no-grid", "No grid lines", ROWPROOF_FIELD(chart.without_grid)));
  keys.push_back(Text("chart", "crop", "--crop", "Pixels cut off: left, top, right, bottom",
                      "found", "\"40,0,40,25\"", ROWPROOF_FIELD(chart.crop), CheckCrop));
  keys.push_back(Text("chart", "colour_a", "--colour-a", "Colour A in the picture", "the lightest",
                      "\"#f2e6cf\"", ROWPROOF_FIELD(chart.colour_a)));
  keys.push_back(Text("chart", "colour_b", "--colour-b", "Colour B in the picture",
                      "of two, the darker", "\"#1e3a5f\"", ROWPROOF_FIELD(chart.colour_b)));
  keys.push_back(Text("chart", "colours", "--colour", "Colours in the picture", "found",
                      "[\"C=#2f6f4f\"]", ROWPROOF_FIELD(chart.colours), CheckMeaning));
  keys.push_back(Number("chart", "tolerance", "--tolerance", "Tolerance of a colour", "0", "0", 0,
                        255, ROWPROOF_FIELD(chart.tolerance)));
  keys.push_back(Switch("chart", "swap_colours", "--swap-colours", "Colours A and B exchanged",
                        ROWPROOF_FIELD(chart.swap_colours)));
  keys.push_back(Text("repeat", "stitches", "--stitch-band", "Repeated stitches", "none",
                      "\"3-10\"", ROWPROOF_FIELD(chart.stitch_band), CheckBand));
  keys.push_back(Text("repeat", "rows", "--row-band", "Repeated rows", "none", "\"5-12\"",
                      ROWPROOF_FIELD(chart.row_band), CheckBand));
}

void AddWords(std::vector<DesignKey>& keys) {
  keys.push_back(Word("rows", "terms", "--terms", "Stitch names", "US, or what your own text says",
                      TermsWords, ROWPROOF_FIELD(chart.terms)));
  keys.push_back(
      Word("rows", "hand", "--hand", "Hand", "right", Hands, ROWPROOF_FIELD(chart.hand)));
  keys.push_back(Word("rows", "repeats", "--repeats", "Mark of repeats in a row", "brackets",
                      RepeatStyles, ROWPROOF_FIELD(chart.repeats)));
  keys.push_back(Number("rows", "nesting", "--nesting", "Brackets within brackets", "2", "2", 0, 6,
                        ROWPROOF_FIELD(chart.nesting)));
  keys.push_back(Switch("rows", "every_row", "--every-row", "Every row written out",
                        ROWPROOF_FIELD(chart.every_row)));
  keys.push_back(Text("rows", "colour_names", "--colour-name", "Colour names, from A on",
                      "the letters", "[\"cream\", \"slate\"]", ROWPROOF_FIELD(chart.colour_names)));
  keys.push_back(Number("pace", "stitches_per_minute", "--stitches-per-minute",
                        "Stitches in a minute", "15", "15", 0.01, 1000,
                        ROWPROOF_FIELD(materials.stitches_per_minute)));
  keys.push_back(Number("pace", "minutes_per_row_start", "--minutes-per-row-start",
                        "Minutes to start a row", "1", "1", 0, 60,
                        ROWPROOF_FIELD(materials.minutes_per_row_start)));
  keys.push_back(Number("pace", "minutes_per_end", "--minutes-per-end",
                        "Minutes to weave in an end", "1.5", "1.5", 0, 60,
                        ROWPROOF_FIELD(minutes_per_end)));
}

void AddOthers(std::vector<DesignKey>& keys) {
  keys.push_back(Number("check", "longest_carried_run", "--longest-carried-run",
                        "Drops side by side that hold a carried strand", "5", "5", 0, 4000,
                        ROWPROOF_FIELD(longest_carried_run)));
  keys.push_back(Number("check", "longest_skip", "--longest-skip",
                        "Inset: skipped stitches side by side that do not gape", "3", "3", 0, 4000,
                        ROWPROOF_FIELD(longest_skip)));
  keys.push_back(Number("check", "longest_flap", "--longest-flap",
                        "Overlay: drops side by side without a loose flap", "8", "8", 0, 4000,
                        ROWPROOF_FIELD(longest_flap)));
  keys.push_back(Text("drawing", "shades", "--shade", "What the yarns look like",
                      "the drawing's own", "[\"A=#f2e6cf\", \"B=#1e3a5f\"]", ROWPROOF_FIELD(shades),
                      CheckMeaning));
  keys.push_back(Number("drawing", "wrong_side_share", "--wrong-side-share",
                        "How much of a WS row is seen", "0.4", "0.4", 0.1, 1,
                        ROWPROOF_FIELD(wrong_side_share)));
  keys.push_back(Text("pattern", "title", "--title", "Title", "the pattern's",
                      "\"Reed Mat (invented)\"", ROWPROOF_FIELD(printed.title)));
  keys.push_back(Text("pattern", "level", "--level", "Level", "not said", "\"some practice\"",
                      ROWPROOF_FIELD(printed.level)));
  keys.push_back(FileName("pattern", "introduction", "--introduction", "File of the introduction",
                          "\"introduction.txt\"", ROWPROOF_FIELD(printed.introduction)));
  keys.push_back(FileName("pattern", "notes", "--notes", "File of the notes", "\"notes.txt\"",
                          ROWPROOF_FIELD(printed.notes)));
  keys.push_back(FileName("pattern", "finishing", "--finishing", "File of the finishing",
                          "\"finishing.txt\"", ROWPROOF_FIELD(printed.finishing)));
  keys.push_back(FileName("pattern", "text", "--text", "File of your own written rows",
                          "\"rows.txt\"", ROWPROOF_FIELD(printed.text)));
}

#undef ROWPROOF_FIELD

}  // namespace

const std::vector<DesignKey>& DesignKeys() {
  static const auto& keys = *new std::vector<DesignKey>([] {
    std::vector<DesignKey> list;
    AddWorking(list);
    AddReading(list);
    AddWords(list);
    AddOthers(list);
    return list;
  }());
  return keys;
}

const std::vector<YarnKey>& YarnKeys() {
  using Kind = PartKey::Kind;
  static const auto& keys = *new std::vector<YarnKey>{
      {"name", "name", Kind::kText, 0, 0, "\"Oat (invented)\""},
      {"fibre", "fibre", Kind::kText, 0, 0, "\"80 % cotton, 20 % acrylic\""},
      {"weight_class", "class", Kind::kWhole, 0, 7, "4"},
      {"wpi", "wpi", Kind::kNumber, 0.5, 100, "9"},
      {"ball", "ball", Kind::kText, 0, 0, "\"125 m / 50 g\""},
      {"tex", "tex", Kind::kNumber, 1, 100000, "400"}};
  return keys;
}

bool IsEmpty(const DesignField& field) {
  struct Visitor {
    bool operator()(const std::string* text) const { return text->empty(); }
    bool operator()(const std::vector<std::string>* texts) const { return texts->empty(); }
    bool operator()(const std::optional<int>* value) const { return !value->has_value(); }
    bool operator()(const std::optional<double>* value) const { return !value->has_value(); }
    bool operator()(const std::optional<bool>* value) const { return !value->has_value(); }
  };
  return std::visit(Visitor{}, field);
}

namespace {

// Both fields are of the same kind, since the same accessor gave them.
void Copy(const DesignField& from, const DesignField& to) {
  std::visit(
      [&to](auto* source) { *std::get<std::remove_const_t<decltype(source)>>(to) = *source; },
      from);
}

}  // namespace

void FillFrom(const DesignOptions& design_file, DesignOptions* options) {
  DesignOptions from = design_file;
  MaterialsOptions& typed = options->materials;
  if (!typed.gauges.empty() || typed.stitches_per_10cm.has_value() ||
      typed.rows_per_10cm.has_value()) {
    from.materials.gauges.clear();
    from.materials.other_fabric.reset();
  }
  if (!options->chart.grid.empty()) from.chart.without_grid.reset();
  if (options->chart.without_grid.has_value()) from.chart.grid.clear();
  const auto fill = [&](DesignField (*field)(DesignOptions&)) {
    if (IsEmpty(field(*options))) Copy(field(from), field(*options));
  };
  for (const DesignKey& key : DesignKeys()) fill(key.field);
  for (const DesignTable& table : DesignTables()) fill(table.field);
  typed.design_yarns = from.materials.design_yarns;
}

}  // namespace rowproof::client
