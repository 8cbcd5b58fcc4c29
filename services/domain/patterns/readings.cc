#include "services/domain/patterns/readings.h"

#include <algorithm>

#include "services/domain/chart/expand.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::patterns {

const SizeDifference* Readings::Difference(int from, int to, const std::string& size) {
  const auto key = std::make_tuple(from, to, size);
  if (const auto found = differences_.find(key); found != differences_.end()) return &found->second;
  const auto before = contents_.find(from);
  const auto after = contents_.find(to);
  if (before == contents_.end() || after == contents_.end()) return nullptr;
  const chart::Design& old_design = before->second.design;
  const chart::Design& new_design = after->second.design;
  const int old_size = testcalls::SizeIndex(old_design, size);
  const int new_size = testcalls::SizeIndex(new_design, size);
  if (old_size < 0 || new_size < 0) return nullptr;
  SizeDifference difference = stop_ == nullptr
                                  ? CompareSize(old_design, old_size, new_design, new_size)
                                  : CompareSize(old_design, old_size, new_design, new_size, *stop_);
  if (StopAfter(0)) return nullptr;
  return &differences_.emplace(key, std::move(difference)).first->second;
}

int Readings::RowIn(int version, const std::string& size, int row) {
  if (version == present_) return row;
  const SizeDifference* difference = Difference(version, present_, size);
  if (difference == nullptr) return 0;
  const auto& rows = difference->new_row;
  const auto found = std::find(rows.begin(), rows.end(), row);
  return found == rows.end() ? 0 : static_cast<int>(found - rows.begin()) + 1;
}

const rows::OwnRows& Readings::TextOf(int version) {
  const auto found = texts_.find(version);
  if (found != texts_.end()) return found->second;
  const VersionContent& content = contents_.at(version);
  return texts_
      .try_emplace(version, content.design, content.designer_text, content.designer_text_terms,
                   content.row_style.colour_names)
      .first->second;
}

bool Readings::SameText(const std::string& size, int row, int version, int other_row, int other) {
  const VersionContent& content = contents_.at(version);
  const VersionContent& its = contents_.at(other);
  if (content.designer_text.empty() || its.designer_text.empty()) return false;
  const int in = testcalls::SizeIndex(content.design, size);
  const int in_other = testcalls::SizeIndex(its.design, size);
  return content.design.technique == its.design.technique &&
         content.design.form == its.design.form &&
         chart::ExpandedStitches(content.design, in) ==
             chart::ExpandedStitches(its.design, in_other) &&
         TextOf(version).SameRow(in, row, TextOf(other), in_other, other_row);
}

bool Readings::Same(faults::Source source, int size, int row, int version, int other) {
  // Looking a row up goes through the rows of a version.
  if (version == other || StopAfter(200)) return version == other;
  const std::string& name = present().sizes[static_cast<size_t>(size)].name;
  const int in_version = RowIn(version, name, row);
  const int in_other = RowIn(other, name, row);
  if (in_version == 0 || in_other == 0) return false;
  const bool own =
      source == faults::Source::kText &&
      !(contents_.at(version).designer_text.empty() && contents_.at(other).designer_text.empty());
  if (own) return SameText(name, in_version, version, in_other, other);
  const SizeDifference* difference = Difference(version, other, name);
  return difference != nullptr &&
         difference->same_old_row[static_cast<size_t>(in_other - 1)] == in_version;
}

bool Readings::SameAsMet(faults::SeenIn seen_in, int size, int row, int version, int other) {
  using faults::Source;
  switch (seen_in) {
    case faults::SeenIn::kChart:
      return Same(Source::kChart, size, row, version, other);
    case faults::SeenIn::kText:
      return Same(Source::kText, size, row, version, other);
    case faults::SeenIn::kBoth:
      return Same(Source::kChart, size, row, version, other) ||
             Same(Source::kText, size, row, version, other);
    case faults::SeenIn::kElsewhere:
      return Same(Source::kChart, size, row, version, other) &&
             Same(Source::kText, size, row, version, other);
  }
  return false;
}

std::optional<Place> Readings::InPresent(const std::string& size, int version, const Place& place) {
  if (version == present_) return place;
  const SizeDifference* difference = Difference(version, present_, size);
  if (difference == nullptr) return std::nullopt;
  const auto carried = Carry(*difference, place);
  if (!carried.ok() || carried->kind == CarriedKind::kRowGone) return std::nullopt;
  return carried->to;
}

faults::TesterWork Readings::WorkOf(const std::string& seat, const std::string& size,
                                    const std::vector<WorkStep>& steps) {
  faults::TesterWork work;
  work.tester = seat;
  work.size = testcalls::SizeIndex(present(), size);
  work.version = present_;
  if (work.size < 0) return work;
  for (const WorkStep& step : steps) {
    int reached = step.last_row;
    if (step.version != present_) {
      const SizeDifference* difference = Difference(step.version, present_, size);
      if (difference == nullptr) continue;
      const auto& rows = difference->new_row;
      const auto end = rows.begin() + std::min(step.last_row, static_cast<int>(rows.size()));
      reached = end == rows.begin() ? 0 : *std::max_element(rows.begin(), end);
    }
    // A later report that reaches less far takes rows back: they were worked again, or miscounted.
    work.row_version.resize(static_cast<size_t>(reached), step.version);
    work.last_row = reached;
    work.version = step.version;
  }
  return work;
}

void MarkTextChanges(const rows::OwnRows& before, const rows::OwnRows& after,
                     SizeDifference& difference) {
  for (RowDifference& row : difference.rows) {
    if (row.change == RowChange::kSame && !before.SameRow(difference.old_size, row.old_row, after,
                                                          difference.new_size, row.new_row)) {
      row.change = RowChange::kTextChanged;
    }
  }
}

}  // namespace rowproof::patterns
