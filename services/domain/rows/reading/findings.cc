#include "services/domain/rows/reading/findings.h"

#include <algorithm>
#include <tuple>

#include "fmt/format.h"

namespace rowproof::rows {

void TextFindings::Add(TextFinding finding) {
  switch (finding.severity) {
    case chart::Severity::kError:
      ++error_count_;
      break;
    case chart::Severity::kWarning:
      ++warning_count_;
      break;
    case chart::Severity::kNote:
      ++note_count_;
      break;
  }
  auto& kept = finding.severity == chart::Severity::kError ? errors_ : others_;
  if (kept.size() < static_cast<size_t>(kMostTextFindings)) kept.push_back(std::move(finding));
}

void TextFindings::MoveTo(TextDocument& document) {
  for (TextFinding& finding : others_) {
    if (errors_.size() == static_cast<size_t>(kMostTextFindings)) break;
    errors_.push_back(std::move(finding));
  }
  std::stable_sort(errors_.begin(), errors_.end(), [](const TextFinding& a, const TextFinding& b) {
    return std::tie(a.at.line, a.at.column) < std::tie(b.at.line, b.at.column);
  });
  document.findings = std::move(errors_);
  document.error_count = error_count_;
  document.warning_count = warning_count_;
  document.note_count = note_count_;
}

const char* CodeName(TextFindingCode code) {
  switch (code) {
    case TextFindingCode::kUnreadable:
      return "unreadable-row";
    case TextFindingCode::kTooMuch:
      return "over-limit";
    case TextFindingCode::kWrongList:
      return "wrong-size-list";
    case TextFindingCode::kTwoReadings:
      return "two-readings";
    case TextFindingCode::kContradiction:
      return "contradiction";
    case TextFindingCode::kUnknownTerms:
      return "unknown-terms";
    case TextFindingCode::kMixedTerms:
      return "mixed-terms";
    case TextFindingCode::kUnknownColour:
      return "unknown-colour";
    case TextFindingCode::kUnknownSize:
      return "unknown-size";
    case TextFindingCode::kUnknownSource:
      return "unknown-source-row";
    case TextFindingCode::kRowsDoNotAddUp:
      return "rows-do-not-add-up";
    case TextFindingCode::kPassedOver:
      return "passed-over";
  }
  return "";
}

std::string Sentence(const TextFinding& finding) {
  const std::string found = finding.met.empty() ? "the end of the row" : '"' + finding.met + '"';
  const std::string place = fmt::format("Line {}, column {}: ", finding.at.line, finding.at.column);
  switch (finding.code) {
    case TextFindingCode::kPassedOver:
      return fmt::format("{}{} is not a row; it was ignored.", place, found);
    case TextFindingCode::kMixedTerms:
      return fmt::format("{}{} belongs to the other terms; this text is in {}.", place, found,
                         finding.fits);
    case TextFindingCode::kRowsDoNotAddUp:
      return fmt::format("{}these are {}, but should be {}.", place, finding.met, finding.fits);
    default:
      return fmt::format("{}expected {}, found {}.", place, finding.fits, found);
  }
}

}  // namespace rowproof::rows
