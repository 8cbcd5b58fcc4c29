#include "services/domain/patterns/difference_sentences.h"

#include <cctype>

#include "fmt/format.h"
#include "services/domain/check.h"
#include "services/domain/patterns/difference.h"

namespace rowproof::patterns {
namespace {

constexpr size_t kMostRangesNamed = 8;

std::string RowInWords(int row, int first, int rows_per_chart_row) {
  ROWPROOF_CHECK(rows_per_chart_row == 1 || rows_per_chart_row == 2);
  if (rows_per_chart_row == 1) return fmt::format("row {}", row + first - 1);
  return fmt::format("rows {} and {}", 2 * row + first - 2, 2 * row + first - 1);
}

std::string RangesInWords(const std::vector<StitchRange>& ranges) {
  const bool one_stitch = ranges.size() == 1 && ranges[0].first == ranges[0].last;
  std::string words = one_stitch ? "stitch " : "stitches ";
  const size_t named = std::min(ranges.size(), kMostRangesNamed);
  for (size_t i = 0; i < named; ++i) {
    if (i > 0) words += i + 1 == ranges.size() ? " and " : ", ";
    const StitchRange& range = ranges[i];
    words += range.first == range.last ? fmt::format("{}", range.first)
                                       : fmt::format("{} to {}", range.first, range.last);
  }
  if (const size_t more = ranges.size() - named; more > 0) {
    words += more == 1 ? " and 1 more place" : fmt::format(" and {} more places", more);
  }
  return words;
}

std::string StitchesInWords(const RowDifference& row) {
  if (row.old_stitches == row.new_stitches) {
    return row.old_stitches.empty() ? "" : RangesInWords(row.old_stitches) + " changed";
  }
  if (row.old_stitches.empty()) return RangesInWords(row.new_stitches) + " added";
  if (row.new_stitches.empty()) return RangesInWords(row.old_stitches) + " removed";
  return fmt::format("{} replaced by {}", RangesInWords(row.old_stitches),
                     RangesInWords(row.new_stitches));
}

std::string ChangeInWords(const RowDifference& row) {
  std::string words = StitchesInWords(row);
  const auto add = [&words](const char* more) {
    words += (words.empty() ? "" : ", ") + std::string(more);
  };
  if (row.colour_changed) add("colour changed");
  if (row.side_changed) add("side changed");
  return words.empty() ? "worked differently" : words;
}

std::string Capital(std::string words) {
  if (!words.empty()) {
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  }
  return words;
}

// Lines of a text may already end in the sentence's full stop.
std::string WithoutFullStop(const std::string& words) {
  const bool stopped = words.size() > 1 && words.back() == '.' && words[words.size() - 2] != '.';
  return stopped ? words.substr(0, words.size() - 1) : words;
}

}  // namespace

std::string Sentence(const RowDifference& difference, const RowNumbers& numbers) {
  const std::string was =
      RowInWords(difference.old_row, numbers.old_first, numbers.old_rows_per_chart_row);
  const std::string now =
      RowInWords(difference.new_row, numbers.new_first, numbers.new_rows_per_chart_row);
  const std::string moved = was == now ? "" : fmt::format(" ({} before)", was);
  switch (difference.change) {
    case RowChange::kSame:
      return Capital(fmt::format("{}{}: unchanged.", now, moved));
    case RowChange::kChanged:
      return Capital(fmt::format("{}{}: {}.", now, moved, ChangeInWords(difference)));
    case RowChange::kAdded:
      return Capital(now + " added.");
    case RowChange::kRemoved:
      return Capital(was + " removed.");
    case RowChange::kTextChanged:
      return Capital(fmt::format("{}{}: unchanged in the chart, changed in the text.", now, moved));
  }
  return "";
}

std::string Sentence(const FieldDifference& difference) {
  const std::string label = Capital(difference.label);
  const std::string was = WithoutFullStop(difference.was);
  const std::string now = WithoutFullStop(difference.now);
  if (was.empty()) return fmt::format("{}: now {} (not stated before).", label, now);
  if (now.empty()) return fmt::format("{}: no longer stated (was {}).", label, was);
  return fmt::format("{}: was {}, now {}.", label, was, now);
}

}  // namespace rowproof::patterns
