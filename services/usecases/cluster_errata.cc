#include "services/usecases/cluster_errata.h"

#include <algorithm>
#include <map>
#include <optional>

#include "fmt/format.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/rows/comparing/sentences.h"
#include "services/usecases/call_evidence.h"
#include "services/usecases/compare_text.h"

namespace rowproof::usecases {
namespace {

// In the present version's rows; without a row if the reported one is gone.
faults::ReportedErratum Carried(const faults::ErratumRecord& row, const CallEvidence& evidence,
                                patterns::Readings& readings) {
  faults::ReportedErratum reported;
  reported.id = row.id.value;
  reported.tester = row.seat.value;
  reported.version = row.version_number;
  reported.size = testcalls::SizeIndex(evidence.present().design, row.size);
  reported.kind = row.entry.kind;
  reported.seen_in = row.entry.seen_in;
  if (row.entry.row == 0 || reported.size < 0) return reported;
  const auto place = readings.InPresent(row.size, row.version_number,
                                        {row.entry.row, row.stitches.first, row.stitches.last});
  if (!place.has_value()) return reported;
  reported.row = place->row;
  reported.first_stitch = place->first_stitch;
  reported.last_stitch = place->last_stitch;
  return reported;
}

std::vector<faults::ErratumConfirmation> Confirmations(const CallEvidence& evidence) {
  std::vector<faults::ErratumConfirmation> all;
  for (const auto& erratum : evidence.errata) {
    for (const auto& said : erratum.confirmations) {
      all.push_back({erratum.id.value, said.seat.value, said.confirmation});
    }
  }
  return all;
}

// Testers who report a fault after another report of it was listed could have seen that report.
void MarkSeenBefore(const CallEvidence& evidence,
                    const std::vector<faults::ErrataCluster>& clusters,
                    std::vector<faults::ReportedErratum>& reports) {
  for (const auto& cluster : clusters) {
    for (const size_t i : cluster.reports) {
      reports[i].seen_before =
          std::any_of(cluster.reports.begin(), cluster.reports.end(), [&](size_t other) {
            return reports[other].tester != reports[i].tester &&
                   evidence.errata[other].listed_at < evidence.errata[i].listed_at;
          });
    }
  }
}

std::string Rows(const faults::ErrataCluster& cluster) {
  return cluster.last_row > cluster.row
             ? fmt::format("Rows {} to {}", cluster.row, cluster.last_row)
             : fmt::format("Row {}", cluster.row);
}

// What the present version's text says in these rows; `own` is none if the version has no text
// of its own, or it could not be compared.
void AddText(const faults::ErrataCluster& cluster, const CallEvidence& evidence,
             const std::optional<rows::Comparison>& own, std::vector<std::string>& sentences) {
  if (evidence.present().designer_text.empty()) {
    sentences.push_back("The written rows are made from the chart and agree with it.");
    return;
  }
  if (!own.has_value()) return;
  const size_t before = sentences.size();
  for (const rows::ComparisonFinding& finding : own->findings) {
    if (finding.severity == chart::Severity::kError && finding.chart_row >= cluster.row &&
        finding.chart_row <= cluster.last_row) {
      sentences.push_back(rows::Sentence(finding, *own));
    }
  }
  if (sentences.size() == before && own->equal()) {
    sentences.push_back("The designer's own rows agree with the chart.");
  }
}

// What a check of the present version's rows says.
std::vector<std::string> Recompute(const faults::ErrataCluster& cluster,
                                   const std::vector<faults::ReportedErratum>& reports,
                                   const CallEvidence& evidence, const chart::CheckResult& check,
                                   const std::optional<rows::Comparison>& own,
                                   patterns::Readings& readings) {
  const chart::Design& design = evidence.present().design;
  if (cluster.row == 0) return {"It names no row of the chart, so there is nothing to check."};
  std::vector<std::string> sentences;
  for (const chart::Finding& finding : check.findings) {
    if (finding.severity != chart::Severity::kError || finding.row < cluster.row ||
        finding.row > cluster.last_row) {
      continue;
    }
    sentences.push_back(chart::Sentence(finding, design));
  }
  if (sentences.empty()) {
    sentences.push_back(Rows(cluster) + " can be worked in every size.");
  }
  AddText(cluster, evidence, own, sentences);
  const bool corrected =
      std::none_of(cluster.reports.begin(), cluster.reports.end(), [&](size_t i) {
        const faults::ReportedErratum& report = reports[i];
        return report.row == 0 || readings.SameAsMet(report.seen_in, report.size, report.row,
                                                     report.version, evidence.present_version);
      });
  if (corrected) {
    sentences.push_back(fmt::format("It reads differently in version {} from where it was found.",
                                    evidence.present_version));
  }
  return sentences;
}

}  // namespace

std::vector<reconcile::ClusterResult> ClusterErrata(const CallEvidence& evidence,
                                                    const std::vector<faults::TesterWork>& work,
                                                    patterns::Readings& readings,
                                                    const Stop& stop) {
  std::vector<faults::ReportedErratum> reports;
  for (const auto& row : evidence.errata) reports.push_back(Carried(row, evidence, readings));
  const auto confirmations = Confirmations(evidence);
  const faults::ChartPlaces places = PlacesOf(evidence.present().design);
  const auto same = SameReadingOf(readings);
  MarkSeenBefore(evidence, faults::ClusterErrata(reports, confirmations, work, places, same, stop),
                 reports);
  const chart::CheckResult check = chart::Check(evidence.present().design, {}, stop);
  std::optional<rows::Comparison> own;
  if (!evidence.present().designer_text.empty()) {
    if (auto compared = CompareText(evidence.present(), stop); compared.ok()) {
      own = *std::move(compared);
    }
  }
  std::vector<reconcile::ClusterResult> results;
  for (auto& cluster : faults::ClusterErrata(reports, confirmations, work, places, same, stop)) {
    if (stop.After(10 * (check.findings.size() + 1))) break;
    reconcile::ClusterResult result;
    for (const size_t i : cluster.reports) result.errata.push_back(reports[i].id);
    result.recomputed = Recompute(cluster, reports, evidence, check, own, readings);
    result.cluster = std::move(cluster);
    results.push_back(std::move(result));
  }
  return results;
}

}  // namespace rowproof::usecases
