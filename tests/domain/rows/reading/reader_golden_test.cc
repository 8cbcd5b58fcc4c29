// Whole texts as designers write them (invented), and all that is read from them, side by side in
// tests/golden/read_rows.txt: text, rows of each size (golden_cases.h).
#include <string>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/rows/text_rows.h"
#include "tests/domain/rows/golden_cases.h"
#include "tests/domain/rows/read_stitches.h"

namespace rowproof::rows {
namespace {

std::string RowsOf(const TextDocument& document, int size) {
  std::string lines;
  std::vector<WorkedRun> below;
  int stitches = document.foundation.has_value() ? document.foundation->chains.Of(size) - 1 : 0;
  for (const PlacedRow& row : RowsOfSize(document, size)) {
    lines += fmt::format("{} {} {} ", row.number, row.side ? chart::Name(*row.side) : "-",
                         row.colour ? chart::Name(*row.colour) : "-");
    if (row.worked < 0) {
      lines += "unknown\n";
      continue;
    }
    const TextRow& text = document.rows[static_cast<size_t>(row.worked)];
    if (text.body == TextRow::Body::kUnread) {
      lines += "unread\n";
      continue;
    }
    const ExpandedText expanded = ExpandSteps(text.steps, size, {stitches, below});
    lines += Shown(expanded.runs);
    if (expanded.fit == ExpandedText::Fit::kLeavesOver) {
      lines += fmt::format(" leaves {} over", expanded.off_by);
    } else if (expanded.fit == ExpandedText::Fit::kRunsShort) {
      lines += fmt::format(" runs short by {}", expanded.off_by);
    }
    for (const StatedCount& stated : text.stated) {
      lines += fmt::format(" ({})", stated.count.Of(size));
    }
    lines += '\n';
    below = Reversed(expanded.runs);
    stitches = expanded.taken;
  }
  return lines;
}

std::string AllThatIsRead(const std::string& text) {
  const auto document = ReadRows(text);
  if (!document.ok()) return std::string(document.status().message()) + '\n';
  std::string all = fmt::format("terms {}\n", !document->terms.has_value()            ? "unknown"
                                              : *document->terms == chart::Terms::kUs ? "US"
                                                                                      : "UK");
  for (int size = 0; size < document->size_count(); ++size) {
    all += fmt::format("size {}\n", document->sizes[static_cast<size_t>(size)]);
    all += RowsOf(*document, size);
  }
  for (const TextFinding& finding : document->findings) {
    all += fmt::format("{} {}: {}\n", chart::SeverityName(finding.severity), CodeName(finding.code),
                       Sentence(finding));
  }
  return all;
}

TEST(ReadGolden, TextsAreReadAsTheyWereReviewed) {
  ExpectGolden("read_rows.txt", 1, 4,
               [](const GoldenParts& parts) { return AllThatIsRead(parts[0]); });
}

}  // namespace
}  // namespace rowproof::rows
