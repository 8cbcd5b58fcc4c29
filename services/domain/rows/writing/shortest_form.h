// The shortest way to write a row of stitches as runs and brackets, proved by an exact method.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SHORTEST_FORM_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SHORTEST_FORM_H_

#include <cstdint>
#include <span>
#include <vector>

#include "services/domain/rows/instructions.h"
#include "services/domain/stop.h"

namespace rowproof::rows {

// A run ("sc 3"): `count` of a stitch, `inside` empty; a chain space ("ch 3, sk 2"): one of it. A
// bracket ("[ssc, sc 2] 9 times"): `inside` worked `count` times, at least twice.
struct Step {
  Element element;
  int count = 1;
  std::vector<Step> inside;
  bool operator==(const Step&) const = default;
};

// What may still be spent on searching, shared by the rows of a pattern. If the work has to stop,
// nothing is left either: what is written then is thrown away by whoever passed the stop.
struct SearchBudget {
  int64_t left = 0;  // elementary steps
  bool ran_out = false;
  const Stop* stop = nullptr;  // outlives it; none: never

  // Takes steps; false, and nothing left, if there are not so many.
  bool Take(int64_t steps) {
    left -= steps;
    if (stop != nullptr && stop->After(steps)) left = -1;
    return left >= 0;
  }
  // No step is left from now on.
  void RunOut() {
    left = 0;
    ran_out = true;
  }
};

// A run costs 1; a chain space 2, since it takes two terms; a bracket 1 and the cost of its inside.
int Cost(std::span<const Step> steps);

// Steps of least cost whose brackets are nested at most `depth` deep (0: runs only). If the
// budget runs out, a valid form of a lesser depth, and budget.ran_out is set. No elements, no
// steps. No two chain spaces are neighbours.
//
// A dynamic programme over prefixes: the last step is a run or a bracket, and the cost of a
// bracket's unit at the lesser depth is known from the same programme started at the unit. Up to
// depth 2 it suffices to try units that are not themselves repeats: writing v costs no more than
// writing v twice or more, at depths 0 and 1 (where a form of the repeats cuts a copy of v, the cut
// bracket's rest has no more runs than the bracket's unit). For deeper nesting every unit is tried.
//
// Equal costs: from the end, a run before a bracket and the longest such run; else the bracket with
// the shortest unit, then with the most copies.
std::vector<Step> ShortestForm(std::span<const Element> elements, int depth, SearchBudget& budget);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_SHORTEST_FORM_H_
