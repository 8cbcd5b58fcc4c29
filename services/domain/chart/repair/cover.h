// Which marks to take away so that of each set that may not stay whole one mark goes at least, at
// the least weight: a weighted hitting set. A chart's rules are such sets (two marks one above the
// other; more than so many side by side), so that this is what repair comes down to.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_COVER_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_COVER_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "services/domain/stop.h"

namespace rowproof::chart {

// The marks ("nodes", from 0) and the sets. A value type.
class Cover {
 public:
  // Returns the new node. `weight` >= 1 is the cost of removing it. Row and stitch say where a
  // problem that is too wide is cut into pieces.
  int32_t AddNode(int32_t weight, int row, int stitch);
  // Nodes without a duplicate, one at least.
  void AddSet(std::span<const int32_t> nodes);
  void Clear();

  int32_t nodes() const { return static_cast<int32_t>(weights_.size()); }
  size_t sets() const { return starts_.size() - 1; }
  size_t members() const { return members_.size(); }
  int32_t weight(int32_t node) const { return weights_[static_cast<size_t>(node)]; }
  int row(int32_t node) const { return places_[static_cast<size_t>(node)].row; }
  int stitch(int32_t node) const { return places_[static_cast<size_t>(node)].stitch; }
  std::span<const int32_t> set(size_t index) const {
    return {members_.data() + starts_[index], starts_[index + 1] - starts_[index]};
  }

 private:
  struct Place {
    int row = 0;
    int stitch = 0;
  };
  std::vector<int32_t> weights_;
  std::vector<Place> places_;
  std::vector<size_t> starts_ = {0};
  std::vector<int32_t> members_;
};

struct CoverAnswer {
  std::vector<uint8_t> taken;  // by node: 1 if it goes
  int64_t weight = 0;          // of what goes
  int64_t least = 0;           // no answer weighs less; equal to `weight` if that is proved
};

// Exact if `steps` table entries suffice. The nodes fall into parts that no set connects. A part
// that is a line of pairs is solved by a programme along the line, any other by variable
// elimination (Bertele and Brioschi 1972; from memory) in the order of least degree. A part too
// wide for that is cut into strips: solved apart, without the sets that cross a cut, they give
// `least`; solved one after the other, each with what is settled before, they give an answer, which
// is then made better strip by strip with the rest held, until nothing is gained any more or the
// steps are used up. Among equals the choice is always the same. Memory O(steps / 8) bytes at most.
// If the work has to stop, the answer has the cover's size and is no answer.
CoverAnswer Solve(const Cover& cover, int64_t steps, const Stop& stop = {});

// The same without strips. Takes what it uses from `steps`; none if they do not suffice, or the
// work has to stop.
std::optional<CoverAnswer> SolveExactly(const Cover& cover, int64_t& steps, const Stop& stop = {});

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_REPAIR_COVER_H_
