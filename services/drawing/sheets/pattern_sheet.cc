#include "services/drawing/sheets/pattern_sheet.h"

#include <memory>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/drawing/charts/pages.h"
#include "services/drawing/charts/request_limits.h"
#include "services/drawing/document.h"
#include "services/drawing/sheets/sheet_parts.h"
#include "services/drawing/table.h"

namespace rowproof::drawing {
namespace {

size_t SheetBytes(const PatternSheet& sheet) {
  size_t bytes = sheet.title.size() + sheet.designer.size() + sheet.version_line.size() +
                 sheet.hash_line.size() + sheet.summary.size() + sheet.level.size() +
                 sheet.hook.size() + sheet.terms.size() + sheet.multiple.size() +
                 sheet.other_hand_heading.size();
  for (const auto* texts : {&sheet.cautions, &sheet.size_notes, &sheet.gauge, &sheet.amount_notes,
                            &sheet.notes, &sheet.written_rows, &sheet.other_hand_rows,
                            &sheet.finishing, &sheet.tested, &sheet.versions_concerned}) {
    bytes += TextBytes(*texts);
  }
  for (const sheets::FinishedSize& row : sheet.sizes) {
    bytes += TextBytes({row.size, row.stitches, row.metric, row.us});
  }
  for (const sheets::YarnUsed& row : sheet.yarns)
    bytes += TextBytes({row.colour, row.yarn, row.ball});
  for (const sheets::YarnAmount& row : sheet.amounts) {
    bytes += TextBytes({row.size, row.colour, row.metres, row.yards, row.grams, row.balls});
  }
  for (const auto* definitions : {&sheet.abbreviations, &sheet.special_stitches}) {
    for (const sheets::Definition& row : *definitions)
      bytes += row.term.size() + row.meaning.size();
  }
  return bytes;
}

absl::Status ValidateSheet(const PatternSheet& sheet) {
  if (auto status = ValidateDate("release_date", sheet.release_date); !status.ok()) return status;
  for (const auto& [field, text] : {std::pair{"title", &sheet.title},
                                    {"designer", &sheet.designer},
                                    {"version_line", &sheet.version_line},
                                    {"hash_line", &sheet.hash_line},
                                    {"other_hand_heading", &sheet.other_hand_heading}}) {
    if (auto status = ValidateHeading(field, *text); !status.ok()) return status;
  }
  return ValidateTextBytes(SheetBytes(sheet));
}

// Below a table.
void AddSmallNotes(Flow& flow, const std::vector<std::string>& notes) {
  TextStyle small = BodyStyle();
  small.size = 8;
  for (const std::string& note : notes) {
    flow.Paragraph(note, small);
    flow.Gap(1.5);
  }
}

void AddSizes(Flow& flow, const PatternSheet& sheet) {
  if (sheet.sizes.empty()) return;
  flow.Section("Finished sizes");
  Table table;
  table.columns = {{"Size", Align::kLeft, true}, {"Stitches and rows"}, {"Metric"}, {"US"}};
  for (const sheets::FinishedSize& row : sheet.sizes) {
    table.rows.push_back({row.size, row.stitches, row.metric, row.us});
  }
  AddTable(flow, table);
  AddSmallNotes(flow, sheet.size_notes);
}

void AddMaterials(Flow& flow, const PatternSheet& sheet) {
  std::vector<sheets::Definition> facts;
  if (!sheet.hook.empty()) facts.push_back({"Hook", sheet.hook});
  for (const std::string& line : sheet.gauge) facts.push_back({"Gauge", line});
  if (!sheet.terms.empty()) facts.push_back({"Terms", sheet.terms});
  if (!sheet.multiple.empty()) facts.push_back({"Multiple", sheet.multiple});
  AddDefinitions(flow, "Hook, gauge and terms", facts);
  if (sheet.yarns.empty() && sheet.amounts.empty()) return;
  flow.Section("Yarn");
  Table yarns;
  yarns.columns = {{"Colour", Align::kLeft, true}, {"Yarn"}, {"A ball"}};
  for (const sheets::YarnUsed& row : sheet.yarns)
    yarns.rows.push_back({row.colour, row.yarn, row.ball});
  AddTable(flow, yarns);
  if (!sheet.yarns.empty()) flow.Gap(6);
  Table amounts;
  amounts.columns = {{"Size", Align::kLeft, true}, {"Colour"},
                     {"Metres", Align::kRight},    {"Yards", Align::kRight},
                     {"Grams", Align::kRight},     {"Balls", Align::kRight}};
  for (const sheets::YarnAmount& row : sheet.amounts) {
    amounts.rows.push_back({row.size, row.colour, row.metres, row.yards, row.grams, row.balls});
  }
  AddTable(flow, amounts);
  AddSmallNotes(flow, sheet.amount_notes);
}

void AddAbbreviations(Flow& flow, const PatternSheet& sheet) {
  if (sheet.abbreviations.empty()) return;
  flow.Section("Abbreviations");
  // A run of short definitions reads well as one paragraph and saves half a
  // page.
  std::string line;
  for (const sheets::Definition& row : sheet.abbreviations) {
    line += fmt::format("{}{}\u00a0= {}", line.empty() ? "" : "; ", row.term, row.meaning);
  }
  flow.Paragraph(line + ".", BodyStyle());
}

void AddTesting(Flow& flow, const PatternSheet& sheet) {
  AddBullets(flow, "How this pattern was tested", sheet.tested);
  AddBullets(flow, "Versions", sheet.versions_concerned);
}

}  // namespace

absl::StatusOr<std::string> DrawPatternSheet(const PatternSheet& sheet, Paper paper,
                                             const Stop& stop) {
  if (auto status = ValidateSheet(sheet); !status.ok()) return status;
  auto typesetter = Typesetter::Open(&stop);
  if (!typesetter.ok()) return typesetter.status();
  std::unique_ptr<ChartPages> chart;
  if (sheet.chart != nullptr) {
    DrawingRequest options = sheet.chart_options;
    options.title.clear();
    options.paper = paper;
    options.date = sheet.release_date;
    if (auto status = Validate(options); !status.ok()) return UnderField(status, "chart_options");
    auto model = ChartModel::Make(*sheet.chart, std::nullopt, options.hand, std::nullopt, stop);
    if (!model.ok()) return UnderField(model.status(), "chart");
    chart = std::make_unique<ChartPages>(*typesetter, *std::move(model), options);
  }
  Flow flow(*typesetter, ShapeOf(paper));
  AddMasthead(flow, "Mosaic crochet pattern", sheet.title, sheet.designer, sheet.version_line,
              sheet.release_date, sheet.hash_line);
  if (!sheet.summary.empty()) flow.Paragraph(sheet.summary, BodyStyle());
  if (!sheet.level.empty()) flow.Paragraph("Level: " + sheet.level, BodyStyle());
  AddCautions(flow, sheet.cautions);
  AddSizes(flow, sheet);
  AddMaterials(flow, sheet);
  AddAbbreviations(flow, sheet);
  AddDefinitions(flow, "Special stitches", sheet.special_stitches);
  AddBullets(flow, "Notes", sheet.notes);
  AddRows(flow, "Written rows", sheet.written_rows);
  AddRows(flow, sheet.other_hand_heading, sheet.other_hand_rows);
  AddBullets(flow, "Finishing", sheet.finishing);
  AddTesting(flow, sheet);
  // Last, since it takes whole pages and would tear the text apart.
  if (chart != nullptr) {
    if (auto status = chart->AddTo(flow, "Chart"); !status.ok()) return status;
  }
  DocumentFacts facts;
  facts.title = sheet.title;
  facts.author = sheet.designer;
  facts.header_right = sheet.version_line;
  facts.footer_left = sheet.designer;
  facts.date = sheet.release_date;
  return WritePdf(flow, facts);
}

}  // namespace rowproof::drawing
