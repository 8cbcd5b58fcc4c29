#include "tests/drawing/sample_pattern.h"

#include "fmt/format.h"
#include "services/domain/chart/expand.h"

namespace rowproof::drawing {

chart::Design SampleDesign(int rows, int stitches, chart::Convention convention) {
  chart::Design design;
  design.convention = convention;
  design.facing = chart::Facing::kTwoFace;
  chart::Grid drops(rows, stitches);
  for (int row = 3; row <= rows; ++row) {
    for (int stitch = 3; stitch <= stitches - 2; ++stitch) {
      const bool wanted =
          row % 2 == 1 ? (stitch + row / 2) % 8 < 3 : (stitch + 64 - row / 2) % 8 == 0;
      drops.set(row, stitch, wanted && !drops.at(row - 1, stitch));
    }
  }
  std::vector<chart::Colour> colours;
  for (int row = 1; row <= rows; ++row) colours.push_back(chart::RowColour(design, row));
  design.cells =
      convention == chart::Convention::kWorking ? drops : chart::PictureFromDrops(drops, colours);
  return design;
}

chart::Design BandedDesign(chart::Convention convention) {
  chart::Design design = SampleDesign(44, 37, convention);
  design.stitch_band = chart::Band{11, 18};
  design.row_band = chart::Band{13, 28};
  design.sizes = {{"throw", 12, 4}, {"blanket", 18, 7}};
  return design;
}

chart::Design LetterF() {
  // As it is read on paper, top row first.
  constexpr const char* kRows[] = {
      ".......",  //
      ".#####.",  //
      ".#.....",  //
      ".#.....",  //
      ".####..",  //
      ".#.....",  //
      ".#.....",  //
      ".#.....",  //
      ".......",
  };
  chart::Design design;
  design.cells = chart::Grid(9, 7);
  for (int row = 1; row <= 9; ++row) {
    for (int stitch = 1; stitch <= 7; ++stitch) {
      design.cells.set(row, stitch, kRows[9 - row][7 - stitch] == '#');
    }
  }
  return design;
}

chart::Design WorkableF() {
  // As it is read on paper, top row first; every second line from the bottom is worked in B.
  constexpr const char* kRows[] = {
      ".........",  // 13
      "#.#####.#",  // 12
      "..#......",  // 11
      "#.#.....#",  // 10
      "..#......",  // 9
      "#.####..#",  // 8
      "..#......",  // 7
      "#.#.....#",  // 6
      "..#......",  // 5
      "#.#.....#",  // 4
      ".........",  // 3
      "#########",  // 2
      ".........",  // 1
  };
  chart::Design design;
  design.cells = chart::Grid(13, 9);
  for (int row = 1; row <= 13; ++row) {
    for (int stitch = 1; stitch <= 9; ++stitch) {
      design.cells.set(row, stitch, kRows[13 - row][9 - stitch] == '#');
    }
  }
  return design;
}

chart::Design EightColours() {
  constexpr int kRowCount = 16;
  constexpr int kStitchCount = 20;
  chart::Design design;
  design.technique = chart::Technique::kOverlay;
  design.cells = chart::Grid(kRowCount, kStitchCount);
  for (int row = 1; row <= kRowCount; ++row) {
    design.row_colours.push_back(static_cast<chart::Colour>((row - 1) % 8));
  }
  for (int row = 1; row <= kRowCount; ++row) {
    const chart::Colour own = chart::RowColour(design, row);
    for (int stitch = 1; stitch <= kStitchCount; ++stitch) {
      const bool inside = stitch > 1 && stitch < kStitchCount && row > 1 && row < kRowCount;
      const bool off = inside && (row % 2 == 0 ? stitch % 6 < 3 : stitch % 6 == 4);
      design.cells.set(row, stitch, off);
      design.picture_colours.push_back(off ? chart::RowColour(design, row + 1) : own);
    }
  }
  return design;
}

PatternSheet SampleSheet(const chart::Design& design, int rows) {
  PatternSheet sheet;
  sheet.title = "Tideline Throw (invented)";
  sheet.designer = "Maren Oswick (invented)";
  sheet.version_line = "Version 2";
  sheet.hash_line = "SHA-256 5f0c8d2e9a417bb36d8814f2c07e95a3d1b64f7e20c9a8853be1f6d70429ac1e";
  sheet.release_date = "2026-11-25";
  sheet.summary =
      "Spike mosaic, two-face: the work is turned after every row, one face is mostly colour A and "
      "the other mostly colour B. Both yarns are cut at each row's end and left as fringe.";
  sheet.level = "intermediate";
  sheet.cautions = {
      "Fringe, cords and loose strands are hazards to babies and small children. Follow the rules "
      "of your country.",
      "Long repetitive work strains hands and wrists: take breaks.",
  };
  sheet.sizes = {
      {"throw", "125 sts x 92 rows", "104 x 132 cm", "41 x 52 in"},
      {"blanket", "173 sts x 140 rows", "144 x 201 cm", "56 3/4 x 79 1/4 in"},
  };
  sheet.gauge = {"12 sts and 7 rows in 10 cm (4 in: 12.2 sts, 7.1 rows) in the pattern, blocked",
                 "12.5 sts and 7.4 rows in 10 cm before blocking"};
  sheet.hook = "5.5 mm (US I-9), or the size that gives the gauge";
  sheet.yarns = {{"A, Oat", "4 Medium, 100 % cotton", "85 m (93 yd) per 50 g"},
                 {"B, Ink", "4 Medium, 100 % cotton", "85 m (93 yd) per 50 g"}};
  sheet.amounts = {{"throw", "A, Oat", "745 m", "815 yd", "440 g", "9"},
                   {"throw", "B, Ink", "690 m", "755 yd", "405 g", "9"},
                   {"blanket", "A, Oat", "1,540 m", "1,685 yd", "905 g", "19"},
                   {"blanket", "B, Ink", "1,420 m", "1,555 yd", "835 g", "17"}};
  sheet.amount_notes = {
      "These amounts suffice for 19 of 20 makers at the design gauge; swatch not included. A maker "
      "whose gauge is one stitch in 10 cm looser takes 60 m more of A for the throw."};
  sheet.terms = "US terms, right-handed; left-handed rows follow";
  sheet.multiple = "multiple of 8 plus 29";
  sheet.abbreviations = {{"ch", "chain"},         {"sc", "single crochet"},
                         {"st(s)", "stitch(es)"}, {"BLO", "back loop only"},
                         {"RS", "right side"},    {"WS", "wrong side"},
                         {"rep", "repeat"},       {"ssc", "spike single crochet (see below)"}};
  sheet.special_stitches = {
      {"Spike single crochet (ssc)",
       "insert the hook under both loops of the stitch two rows down, draw up a loop to the height "
       "of the row being worked, yo and draw through both loops. The stitch covers the row between "
       "on both faces."},
      {"sc", "every sc is worked in BLO, the loop away from you, unless the row says otherwise."}};
  sheet.notes = {"RS is the side on which colour A leads.",
                 "Each row starts with a standing sc, which counts as the first stitch.",
                 "The chart and the written rows say the same; use either."};
  sheet.chart = &design;
  sheet.chart_options.names = {"Oat", "Ink"};
  sheet.written_rows.push_back(
      "Row 1 (RS, A): sc in 2nd ch from hook and in each ch across. (125 (173) sts)");
  for (int row = 2; row <= rows; ++row) {
    const bool a = row % 2 == 1;
    sheet.written_rows.push_back(fmt::format(
        "Row {} ({}, {}): sc {}, [ssc, sc 3, ssc 2, sc 2] 12 (18) times, ssc {}, sc 5, [ssc 2, sc] "
        "twice, sc {}. (125 (173) sts)",
        row, a ? "RS" : "WS", a ? "A" : "B", 3 + row % 5, 1 + row % 3, 2 + row % 7));
  }
  sheet.other_hand_heading = "Written rows for left-handed makers";
  sheet.other_hand_rows = {
      "Row 2 (WS, B): sc 4, [sc 2, ssc 2, sc 3, ssc] 12 (18) times, sc 5. (125 (173) sts)"};
  sheet.finishing = {"Trim the fringe to 12 cm (4 3/4 in).",
                     "Block to the finished size; test a dark yarn for bleeding first."};
  sheet.tested = {
      "Six testers worked it: three throws and two blankets were finished.",
      "Every row of the chart was worked by at least two testers; rows 90 to 120 of the "
      "written rows by one."};
  sheet.versions_concerned = {
      "Version 1 had two errata, in rows 27 and 31; both are corrected here."};
  return sheet;
}

sheets::ErrataSheet SampleErrata(int entries) {
  sheets::ErrataSheet sheet;
  sheet.title = "Tideline Throw (invented)";
  sheet.designer = "Maren Oswick (invented)";
  sheet.versions_concerned = {1};
  sheet.corrected_in = 2;
  sheet.content_hash = "5f0c8d2e9a417bb36d8814f2c07e95a3d1b64f7e20c9a8853be1f6d70429ac1e";
  sheet.release_date = "2026-11-25";
  for (int i = 0; i < entries; ++i) {
    sheets::ErrataEntry entry;
    entry.version = 1;
    entry.row = 27 + 4 * i;
    entry.first_stitch = 5;
    entry.last_stitch = 8;
    entry.sizes = i % 2 == 0 ? "" : "blanket";
    entry.was = fmt::format("Row {} (RS, A): sc 6, [ssc 2, sc 4] 9 (14) times, sc 5.", entry.row);
    entry.should_be =
        fmt::format("Row {} (RS, A): sc 5, [ssc 2, sc 4] 9 (14) times, sc 6.", entry.row);
    entry.found_in = "written rows";
    entry.note = i == 0 ? "The chart was right; the text had lost a stitch at the edge." : "";
    sheet.entries.push_back(entry);
  }
  sheet.changed_rows = {"Row 27: stitches 5 to 8 are worked otherwise.", "Row 31: one drop fewer."};
  sheet.other_changes = {"Yarn A of the throw: 745 m (815 yd), was 700 m (766 yd)."};
  return sheet;
}

}  // namespace rowproof::drawing
