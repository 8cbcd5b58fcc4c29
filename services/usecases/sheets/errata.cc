#include <algorithm>
#include <map>

#include "services/domain/chart/expand.h"
#include "services/domain/sheets/errata_entries.h"
#include "services/usecases/cluster_errata.h"
#include "services/usecases/sheets/sheets.h"

namespace rowproof::usecases {
namespace {

std::vector<sheets::ErrataEntry> EntriesOf(const CallEvidence& evidence, const Stop& stop) {
  patterns::Readings readings(evidence.contents, evidence.present_version, &stop);
  const auto clusters = ClusterErrata(evidence, WorkOfTesters(evidence, readings), readings, stop);
  if (!stop.status().ok()) return {};
  std::map<std::string, size_t> cluster_of;
  for (size_t i = 0; i < clusters.size(); ++i) {
    for (const auto& id : clusters[i].errata) cluster_of[id] = i;
  }
  return sheets::AcceptedEntries(evidence.errata, cluster_of, readings);
}

}  // namespace

sheets::ErrataSheet AssembleErrataSheet(const ReleaseBasis& basis, const std::string& date,
                                        const Stop& stop) {
  const patterns::VersionContent& content = basis.version.content;
  sheets::ErrataSheetFacts facts;
  facts.title = content.title;
  facts.designer = basis.designer;
  facts.corrected_in = basis.version.row.number;
  facts.content_hash = HexOf(basis.version.row.content_hash);
  facts.release_date = date;
  facts.numbers.new_first = content.design.first_row_number;
  facts.numbers.old_first = facts.numbers.new_first;
  facts.numbers.new_rows_per_chart_row = chart::WorkedRows(content.design);
  if (basis.evidence.has_value()) facts.entries = EntriesOf(*basis.evidence, stop);
  if (basis.before.has_value()) {
    const chart::Design& before = basis.before->content.design;
    facts.numbers.old_first = before.first_row_number;
    facts.numbers.old_rows_per_chart_row = chart::WorkedRows(before);
    facts.difference = patterns::Compare(basis.before->content, content, stop);
  }
  sheets::ErrataSheet sheet = sheets::MakeErrataSheet(facts);
  std::vector<int>& concerned = sheet.versions_concerned;
  if (basis.before.has_value() && !facts.difference.empty() &&
      std::find(concerned.begin(), concerned.end(), basis.before->row.number) == concerned.end()) {
    concerned.push_back(basis.before->row.number);
    std::sort(concerned.begin(), concerned.end());
  }
  return sheet;
}

}  // namespace rowproof::usecases
