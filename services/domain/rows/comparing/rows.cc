#include "services/domain/rows/comparing/rows.h"

#include <algorithm>

#include "services/domain/rows/index.h"
#include "services/text/utf8.h"

namespace rowproof::rows {
namespace {

// What an editor has to look at first wins over what other sizes show.
int Weight(Agreement agreement) {
  switch (agreement) {
    case Agreement::kAgrees:
      return 0;
    case Agreement::kMissing:
      return 1;
    case Agreement::kNotRead:
      return 2;
    case Agreement::kDiffers:
      return 3;
    case Agreement::kTooMany:
      return 4;
  }
  return 0;
}

}  // namespace

EditorRows::EditorRows(const TextDocument& document, std::string_view text,
                       const WrittenPattern& written)
    : document_(document), text_(text), written_(written), shown_(document.rows.size(), false) {
  rows_.reserve(written.rows.size());
  for (size_t i = 0; i < written.rows.size(); ++i) {
    const WrittenRow& row = written.rows[i];
    ComparedRow compared;
    compared.number = row.number;
    compared.numbers = row.numbers;
    compared.chart_row = row.chart_row;
    compared.heading = row.heading;
    compared.chart = row.text;
    rows_.push_back(std::move(compared));
    for (size_t size = 0; size < row.numbers.size(); ++size) {
      if (row.numbers[size] == kNotWorked) continue;
      of_number_.emplace(std::make_pair(static_cast<int>(size), row.numbers[size]), i);
    }
  }
  lines_.assign(rows_.size(), -1);
}

void EditorRows::AddSize(const ChartRows& chart, const SizeComparison& compared) {
  std::vector<bool> differs(compared.rows.size(), false);
  for (const RowFault& fault : compared.faults) {
    if (fault.code == ComparisonCode::kRowTooMany) AddTooMany(chart, fault);
    if (fault.worked == 0 || fault.severity != chart::Severity::kError) continue;
    if (fault.code != ComparisonCode::kMissingRow) differs[Index(fault.worked - 1)] = true;
  }
  for (int worked = 1; worked <= chart.count(); ++worked) {
    const RowStanding& standing = compared.rows[Index(worked - 1)];
    const auto found = of_number_.find({chart.size(), chart.number(worked)});
    if (found == of_number_.end()) continue;
    ComparedRow& row = rows_[found->second];
    const Agreement agreement =
        differs[Index(worked - 1)] ? Agreement::kDiffers : standing.agreement;
    if (Weight(agreement) > Weight(row.agreement)) row.agreement = agreement;
    if (lines_[found->second] < 0) lines_[found->second] = standing.line;
  }
}

void EditorRows::AddTooMany(const ChartRows& chart, const RowFault& fault) {
  const auto [found, added] = too_many_of_number_.try_emplace(fault.number, too_many_.size());
  if (added) {
    ComparedRow row;
    row.number = fault.number;
    row.numbers.assign(Index(document_.size_count()), kNotWorked);
    row.agreement = Agreement::kTooMany;
    row.text = LineText(fault.line);
    too_many_.push_back(std::move(row));
  }
  too_many_[found->second].numbers[Index(chart.size())] = fault.number;
}

std::string EditorRows::LineText(int line) {
  if (line < 0) return "";
  const TextRow& row = document_.rows[Index(line)];
  std::string_view text = text_.substr(row.begin, row.end - row.begin);
  if (shown_[Index(line)] && text.size() > kLongestTextAgain) {
    return std::string(text::FirstBytes(text, kLongestTextAgain)) + "...";
  }
  shown_[Index(line)] = true;
  return std::string(text);
}

const std::string& EditorRows::Corrected(int size, int number) const {
  static const std::string kNone;
  const auto found = of_number_.find({size, number});
  return found == of_number_.end() ? kNone : written_.rows[found->second].text;
}

std::vector<ComparedRow> EditorRows::Take() {
  for (size_t i = 0; i < rows_.size(); ++i) rows_[i].text = LineText(lines_[i]);
  std::move(too_many_.begin(), too_many_.end(), std::back_inserter(rows_));
  return std::move(rows_);
}

}  // namespace rowproof::rows
