// What the pattern sheet says of how a piece is made. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_SENTENCES_H_
#define ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_SENTENCES_H_

#include <string>
#include <vector>

#include "services/domain/chart/design.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/estimate/materials.h"
#include "services/domain/patterns/version_content.h"

namespace rowproof::sheets {

// Technique, how rows are worked, and what is done with the ends.
std::string Summary(const chart::Design& design, const estimate::Materials& materials);

// The cautions of all sizes, each once.
std::vector<std::string> Cautions(const std::vector<estimate::SizeEstimate>& sizes);

// After blocking if that was counted, and before.
std::vector<std::string> GaugeLines(const estimate::Materials& materials);
std::string HookLine(const estimate::Materials& materials);

// The designer's own lines, the border in the words of the rows, and the ends to weave in for each
// size.
std::vector<std::string> FinishingLines(const patterns::VersionContent& content,
                                        const std::vector<estimate::SizeEstimate>& estimates,
                                        const rows::WriterSettings& settings);

}  // namespace rowproof::sheets

#endif  // ROWPROOF_SERVICES_DOMAIN_SHEETS_PATTERN_SENTENCES_H_
