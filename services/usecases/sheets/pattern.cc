#include <utility>

#include "fmt/format.h"
#include "services/domain/sheets/pattern_amounts.h"
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

sheets::SheetVersion VersionOf(const ReleaseBasis& basis) {
  const auto& comparison = basis.version.row.comparison;
  std::optional<chart::Terms> text_terms;
  if (comparison.has_value()) text_terms = comparison->terms;
  return {basis.version.row.number, basis.version.content, basis.version.row.estimates, text_terms,
          basis.reconciliation};
}

std::vector<std::string> Tested(const ReleaseBasis& basis, const Stop& stop) {
  if (!basis.evidence.has_value()) return sheets::TestedLines(nullptr);
  const CallEvidence& evidence = *basis.evidence;
  patterns::Readings readings(evidence.contents, evidence.present_version, &stop);
  const chart::Design& design = evidence.present().design;
  const sheets::TestedWork work{
      design, evidence.seats, evidence.reports,
      faults::Cover(WorkOfTesters(evidence, readings), PlacesOf(design).rows,
                    evidence.present_version, SameReadingOf(readings), stop)};
  return sheets::TestedLines(&work);
}

}  // namespace

absl::StatusOr<drawing::PatternSheet> AssemblePatternSheet(const ReleaseBasis& basis,
                                                           const sheets::SheetStyle& style,
                                                           const std::string& date,
                                                           const Stop& stop) {
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
  const sheets::SheetVersion version = VersionOf(basis);
  sheets::AddSizes(version, sheet);
  AddMaterials(basis, sheet);
  sheets::AddAmounts(version, sheet);
  sheet.notes = sheets::Lines(content.introduction);
  for (auto& line : sheets::Lines(content.notes)) sheet.notes.push_back(std::move(line));
  RETURN_IF_ERROR(sheets::AddRows(version, style, stop, sheet));
  sheet.chart = &content.design;
  sheet.tested = Tested(basis, stop);
  RETURN_IF_ERROR(stop.status());
  if (basis.before.has_value()) {
    sheet.versions_concerned.push_back(sheets::ReplacesLine(basis.before->row.number));
  }
  return sheet;
}

}  // namespace rowproof::usecases
