// The words of a comparison: stable codes and the sentences that people read. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_SENTENCES_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_SENTENCES_H_

#include <string>

#include "services/domain/rows/comparing/comparison.h"

namespace rowproof::rows {

const char* CodeName(ComparisonCode code);  // "wrong-stitch", ...
const char* Name(Agreement agreement);  // "agrees", "differs", "missing", "not-read", "too-many"
// One sentence with the place, both readings and the sizes if they are not all.
std::string Sentence(const ComparisonFinding& finding, const Comparison& comparison);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_COMPARING_SENTENCES_H_
