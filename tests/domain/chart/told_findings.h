// Findings as short text in tests.
#ifndef ROWPROOF_TESTS_DOMAIN_CHART_TOLD_FINDINGS_H_
#define ROWPROOF_TESTS_DOMAIN_CHART_TOLD_FINDINGS_H_

#include <string>
#include <vector>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"

namespace rowproof::chart {

// "error code row,stitch" of every finding, with the seam and the sizes where they are not plain.
inline std::vector<std::string> Told(const Design& design, const CheckSettings& settings = {}) {
  std::vector<std::string> told;
  for (const Finding& finding : Check(design, settings).findings) {
    std::string text = std::string(SeverityName(finding.severity)) + " " + CodeName(finding.code) +
                       " " + std::to_string(finding.row) + "," + std::to_string(finding.stitch);
    if (finding.last_stitch != finding.stitch) text += "-" + std::to_string(finding.last_stitch);
    if (finding.seam == Seam::kRowRepeat) text += " row seam";
    if (finding.seam == Seam::kStitchRepeat) text += " stitch seam";
    if (finding.seam == Seam::kJoin) text += " join";
    if (static_cast<size_t>(finding.size_count) != design.sizes.size()) {
      text += " from size " + std::to_string(finding.size) + " in " +
              std::to_string(finding.size_count);
    }
    told.push_back(text);
  }
  return told;
}

}  // namespace rowproof::chart

#endif  // ROWPROOF_TESTS_DOMAIN_CHART_TOLD_FINDINGS_H_
