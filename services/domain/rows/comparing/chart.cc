#include "services/domain/rows/comparing/chart.h"

#include <algorithm>
#include <cstdlib>

#include "services/domain/rows/instructions.h"

namespace rowproof::rows {
namespace {

std::vector<WorkedRun> RunsOf(std::span<const Element> elements) {
  std::vector<WorkedRun> runs;
  for (const Element& element : elements) {
    WorkedRun run;
    if (element.stitch == Stitch::kChainSpace) {
      run.kind = WorkedRun::Kind::kChainSpace;
      run.chains = element.chains;
      run.skipped = element.skipped;
    } else {
      run.stitch = element.stitch == Stitch::kDrop ? TextStitch::kDrop : TextStitch::kPlain;
    }
    AppendRun(runs, run);
  }
  return runs;
}

// FNV-1a over whole numbers. Rows found by it are compared in full.
uint64_t DigestOf(std::span<const WorkedRun> runs) {
  uint64_t digest = 14695981039346656037U;
  const auto add = [&](int value) {
    digest = (digest ^ static_cast<uint64_t>(value)) * 1099511628211U;
  };
  for (const WorkedRun& run : runs) {
    add(static_cast<int>(run.kind));
    add(static_cast<int>(run.stitch));
    add(run.count);
    add(run.chains);
    add(run.skipped);
  }
  return digest;
}

}  // namespace

ChartRows::ChartRows(const chart::Design& design, const RowSequences& sequences, int size,
                     chart::Hand hand, ComparisonWork& work)
    : design_(design),
      sequences_(sequences),
      size_(size),
      hand_(hand),
      work_(work),
      expanded_(chart::Expand(design, size)) {}

std::vector<WorkedRun> ChartRows::runs(int worked) {
  work_.Take(stitches());
  return RunsOf(InstructionOfRow(design_, expanded_, worked, hand_).elements);
}

std::vector<WorkedRun> ChartRows::below(int worked) {
  if (worked <= 1) return {};
  std::vector<WorkedRun> below = runs(worked - 1);
  return turned(worked) ? Reversed(below) : below;
}

int ChartRows::NearestWith(std::span<const WorkedRun> wanted, int worked) {
  if (with_digest_.empty()) {
    absl::flat_hash_map<int, uint64_t> digests;  // by content
    for (int row = 1; row <= count() && !work_.ran_out(); ++row) {
      const auto [digest, added] = digests.try_emplace(content(row));
      if (added) digest->second = DigestOf(runs(row));
      with_digest_[digest->second].push_back(row);
    }
  }
  const auto found = with_digest_.find(DigestOf(wanted));
  if (found == with_digest_.end()) return 0;
  int nearest = 0;
  for (const int row : found->second) {
    if (row == worked) continue;
    if (nearest == 0 || std::abs(row - worked) < std::abs(nearest - worked)) nearest = row;
  }
  if (nearest == 0) return 0;
  const std::vector<WorkedRun> met = runs(nearest);
  return std::equal(met.begin(), met.end(), wanted.begin(), wanted.end()) ? nearest : 0;
}

int ChartRows::stitch(int worked, int place) const {
  const int at = std::clamp(place, 1, stitches());
  const int expanded = ascending(worked) ? at : stitches() + 1 - at;
  return expanded_.chart_stitch[Index(expanded - 1)];
}

}  // namespace rowproof::rows
