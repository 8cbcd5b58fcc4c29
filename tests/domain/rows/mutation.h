// Single seeded mutations of a row as the writer writes it.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_MUTATION_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_MUTATION_H_

#include <random>
#include <string>
#include <vector>

#include "services/domain/chart/design.h"

namespace rowproof::rows {

enum class MutationKind {
  kNumber,       // one number, anywhere in the row, becomes another
  kStitch,       // one stitch becomes another
  kBracket,      // a bracket moves by a step
  kCopiedRow,    // the row is replaced by another, with its head
  kCopiedSteps,  // only what stands behind the head
  kSide,         // RS becomes WS or the other way
  kColour,       // the row's colour becomes another
  kStep,         // a step is left out or stands twice
};
inline constexpr int kMutationKinds = 8;

// The same row in other forms that designers use ("3 sc", "sc in next 3 sts", "( ) twice"), some of
// its steps here and there. It says the same.
std::string InOtherWords(const std::string& line, std::mt19937& random);

// Replaces line `at` of `lines`; false where the mutation does not apply to it or left it as it
// was.
bool Mutate(MutationKind kind, size_t at, chart::Terms terms, std::mt19937& random,
            std::vector<std::string>& lines);

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_MUTATION_H_
