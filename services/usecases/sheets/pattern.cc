#include <utility>

#include "fmt/format.h"
#include "services/domain/sheets/pattern_sentences.h"
#include "services/domain/sheets/words.h"
#include "services/domain/status_macros.h"
#include "services/usecases/sheets/sheets.h"

namespace rowproof::usecases {
namespace {

void AddMaterials(const ReleaseBasis& basis, drawing::PatternSheet& sheet) {
  const estimate::Materials& materials = basis.version.content.materials;
  sheet.gauge = sheets::GaugeLines(materials);
  sheet.hook = sheets::HookLine(materials);
  for (const estimate::YarnColour colour :
       estimate::YarnsUsed(basis.version.content.design, materials)) {
    const estimate::Yarn& yarn = estimate::YarnOf(materials, colour);
    sheet.yarns.push_back(
        {sheets::NameOfColour(colour, yarn), sheets::YarnKind(yarn), sheets::Ball(yarn)});
  }
  sheet.chart_options.names = {materials.yarn_a.name, materials.yarn_b.name};
  for (const estimate::Yarn& yarn : materials.more_yarns) {
    sheet.chart_options.names.push_back(yarn.name);
  }
}

}  // namespace

absl::StatusOr<drawing::PatternSheet> AssemblePatternSheet(const ReleaseBasis& basis,
                                                           const SheetStyle& style,
                                                           const std::string& date) {
  const patterns::VersionContent& content = basis.version.content;
  drawing::PatternSheet sheet;
  sheet.title = content.title;
  sheet.designer = basis.designer;
  sheet.version_line = fmt::format("Version {}", basis.version.row.number);
  sheet.hash_line = "SHA-256 " + HexOf(basis.version.row.content_hash);
  sheet.release_date = date;
  sheet.summary = sheets::Summary(content.design, content.materials);
  sheet.level = content.level;
  sheet.cautions = sheets::Cautions(basis.version.row.estimates);
  AddSizes(basis, sheet);
  AddMaterials(basis, sheet);
  AddAmounts(basis, sheet);
  sheet.notes = sheets::Lines(content.introduction);
  for (auto& line : sheets::Lines(content.notes)) sheet.notes.push_back(std::move(line));
  RETURN_IF_ERROR(AddRows(basis, style, sheet));
  sheet.finishing = sheets::FinishingLines(content, basis.version.row.estimates);
  sheet.chart = &content.design;
  sheet.tested = TestedLines(basis);
  if (basis.before.has_value()) {
    sheet.versions_concerned.push_back(
        fmt::format("This version replaces version {}; the errata sheet lists what changed.",
                    basis.before->row.number));
  }
  return sheet;
}

}  // namespace rowproof::usecases
