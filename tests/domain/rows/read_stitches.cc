#include "tests/domain/rows/read_stitches.h"

#include "fmt/format.h"

namespace rowproof::rows {

std::string Shown(const std::vector<WorkedRun>& runs) {
  constexpr char kLetters[] = ".xmhdtqs.x";
  std::string shown;
  for (const WorkedRun& run : runs) {
    for (int n = 0; n < run.count; ++n) {
      if (run.kind == WorkedRun::Kind::kStitches) {
        shown += kLetters[static_cast<size_t>(run.stitch)];
      } else {
        shown += fmt::format("<{}/{}>", run.chains, run.skipped);
      }
    }
  }
  return shown;
}

std::string ReadBody(std::string_view body, int below, const ReaderSettings& settings, int size) {
  const auto document = ReadRows(fmt::format("Row 2: {}", body), settings);
  if (!document.ok()) return std::string(document.status().message());
  if (!document->findings.empty()) return Sentence(document->findings.front());
  if (document->rows.size() != 1) return fmt::format("{} rows", document->rows.size());
  const ExpandedText expanded = ExpandSteps(document->rows[0].steps, size, {below, {}});
  std::string shown = Shown(expanded.runs);
  switch (expanded.fit) {
    case ExpandedText::Fit::kFits:
      break;
    case ExpandedText::Fit::kLeavesOver:
      shown += fmt::format(" leaves {} over", expanded.off_by);
      break;
    case ExpandedText::Fit::kRunsShort:
      shown += fmt::format(" runs short by {}", expanded.off_by);
      break;
    case ExpandedText::Fit::kTooMuch:
      shown += " too much";
      break;
  }
  return shown;
}

std::vector<std::string> Faults(std::string_view text, const ReaderSettings& settings) {
  const auto document = ReadRows(text, settings);
  if (!document.ok()) return {std::string(document.status().message())};
  std::vector<std::string> faults;
  for (const TextFinding& finding : document->findings) faults.push_back(Sentence(finding));
  return faults;
}

}  // namespace rowproof::rows
