// The words of findings: stable codes, severities and the sentences that people read. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_SENTENCES_H_
#define ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_SENTENCES_H_

#include <string>

#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/design.h"

namespace rowproof::chart {

// Stable code ("no-anchor") and its inverse; nullptr and false if there is none.
const char* CodeName(FindingCode code);

bool ParseCode(const std::string& name, FindingCode* code);

const char* SeverityName(Severity severity);  // "error", "warning", "note"

// One sentence for the maker: where, what happens in the hands, what to change.
std::string Sentence(const Finding& finding, const Design& design);

}  // namespace rowproof::chart

#endif  // ROWPROOF_SERVICES_DOMAIN_CHART_CHECK_SENTENCES_H_
