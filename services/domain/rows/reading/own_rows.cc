#include "services/domain/rows/reading/own_rows.h"

#include <algorithm>
#include <utility>

namespace rowproof::rows {
namespace {

bool SameSteps(const std::vector<TextStep>& steps, int size, const std::vector<TextStep>& others,
               int other_size) {
  return std::equal(steps.begin(), steps.end(), others.begin(), others.end(),
                    [&](const TextStep& step, const TextStep& other) {
                      return step.kind == other.kind && step.stitch == other.stitch &&
                             step.count.Of(size) == other.count.Of(other_size) &&
                             SameSteps(step.inside, size, other.inside, other_size);
                    });
}

bool SameCounts(const TextRow& row, int size, const TextRow& other, int other_size) {
  return std::equal(row.stated.begin(), row.stated.end(), other.stated.begin(), other.stated.end(),
                    [&](const StatedCount& stated, const StatedCount& its) {
                      return stated.what == its.what && stated.stitch == its.stitch &&
                             stated.count.Of(size) == its.count.Of(other_size);
                    });
}

}  // namespace

OwnRows::OwnRows(const chart::Design& design, std::string text, std::optional<chart::Terms> terms,
                 const std::vector<std::string>& colour_names)
    : text_(std::move(text)), first_number_(design.first_row_number) {
  ReaderSettings settings;
  settings.terms = terms;
  settings.colours = ColourNames(colour_names);
  for (const chart::Size& size : design.sizes) settings.sizes.push_back(size.name);
  auto read = ReadRows(text_, settings);
  if (!read.ok()) return;
  document_ = *std::move(read);
  for (int size = 0; size < document_.size_count(); ++size) {
    sizes_.push_back(RowsOfSize(document_, size));
    std::stable_sort(sizes_.back().begin(), sizes_.back().end(),
                     [](const auto& a, const auto& b) { return a.number < b.number; });
  }
}

OwnRows::Row OwnRows::RowsAt(int size, int row) const {
  if (size < 0 || static_cast<size_t>(size) >= sizes_.size()) return {};
  const std::vector<PlacedRow>& rows = sizes_[static_cast<size_t>(size)];
  PlacedRow wanted;
  wanted.number = row + first_number_ - 1;
  const auto [first, last] =
      std::equal_range(rows.begin(), rows.end(), wanted,
                       [](const auto& a, const auto& b) { return a.number < b.number; });
  return {first, last};
}

std::string_view OwnRows::TextOf(int line) const {
  std::string_view text = text_;
  text = text.substr(Line(line).begin, Line(line).end - Line(line).begin);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\n')) text.remove_suffix(1);
  return text;
}

bool OwnRows::SamePlaced(const PlacedRow& row, int size, const OwnRows& other, const PlacedRow& its,
                         int other_size) const {
  const TextRow& line = Line(row.line);
  const TextRow& its_line = other.Line(its.line);
  if (row.side != its.side || row.colour != its.colour || line.marks != its_line.marks ||
      !SameCounts(line, size, its_line, other_size)) {
    return false;
  }
  if (row.worked < 0 || its.worked < 0) return row.worked < 0 && its.worked < 0;
  const TextRow& worked = Line(row.worked);
  const TextRow& its_worked = other.Line(its.worked);
  if (worked.body != its_worked.body) return false;
  if (worked.body == TextRow::Body::kUnread) return TextOf(row.worked) == other.TextOf(its.worked);
  return worked.marks == its_worked.marks && worked.first_chain == its_worked.first_chain &&
         SameCounts(worked, size, its_worked, other_size) &&
         SameSteps(worked.steps, size, its_worked.steps, other_size);
}

bool OwnRows::SameRow(int size, int row, const OwnRows& other, int other_size,
                      int other_row) const {
  const Row rows = RowsAt(size, row);
  const Row others = other.RowsAt(other_size, other_row);
  return std::equal(rows.begin(), rows.end(), others.begin(), others.end(),
                    [&](const PlacedRow& one, const PlacedRow& its) {
                      return SamePlaced(one, size, other, its, other_size);
                    });
}

}  // namespace rowproof::rows
