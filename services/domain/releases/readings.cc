#include "services/domain/releases/readings.h"

#include <algorithm>

#include "services/domain/calls/report.h"

namespace rowproof::releases {

const SizeDifference* Readings::Difference(int from, int to, const std::string& size) {
  const auto key = std::make_tuple(from, to, size);
  if (const auto found = differences_.find(key); found != differences_.end()) return &found->second;
  const auto before = designs_.find(from);
  const auto after = designs_.find(to);
  if (before == designs_.end() || after == designs_.end()) return nullptr;
  const int old_size = calls::SizeIndex(*before->second, size);
  const int new_size = calls::SizeIndex(*after->second, size);
  if (old_size < 0 || new_size < 0) return nullptr;
  return &differences_
              .emplace(key, CompareSize(*before->second, old_size, *after->second, new_size))
              .first->second;
}

int Readings::RowIn(int version, const std::string& size, int row) {
  if (version == present_) return row;
  const SizeDifference* difference = Difference(version, present_, size);
  if (difference == nullptr) return 0;
  const auto& rows = difference->new_row;
  const auto found = std::find(rows.begin(), rows.end(), row);
  return found == rows.end() ? 0 : static_cast<int>(found - rows.begin()) + 1;
}

bool Readings::Same(int size, int row, int version, int other) {
  if (version == other) return true;
  const std::string& name = present().sizes[static_cast<size_t>(size)].name;
  const int in_version = RowIn(version, name, row);
  const int in_other = RowIn(other, name, row);
  if (in_version == 0 || in_other == 0) return false;
  const SizeDifference* difference = Difference(version, other, name);
  return difference != nullptr &&
         difference->same_old_row[static_cast<size_t>(in_other - 1)] == in_version;
}

std::optional<Place> Readings::InPresent(const std::string& size, int version, const Place& place) {
  if (version == present_) return place;
  const SizeDifference* difference = Difference(version, present_, size);
  if (difference == nullptr) return std::nullopt;
  const auto carried = Carry(*difference, place);
  if (!carried.ok() || carried->kind == CarriedKind::kRowGone) return std::nullopt;
  return carried->to;
}

reconcile::TesterWork Readings::WorkOf(const std::string& seat, const std::string& size,
                                       const std::vector<WorkStep>& steps) {
  reconcile::TesterWork work;
  work.tester = seat;
  work.size = calls::SizeIndex(present(), size);
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

}  // namespace rowproof::releases
