// Parts that the pattern sheet and the errata sheet have in common.
#ifndef ROWPROOF_SERVICES_DRAWING_SHEETS_SHEET_PARTS_H_
#define ROWPROOF_SERVICES_DRAWING_SHEETS_SHEET_PARTS_H_

#include <cstddef>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "services/domain/sheets/pattern_sheet.h"
#include "services/drawing/flow.h"

namespace rowproof::drawing {

inline constexpr size_t kMostSheetBytes = 2'000'000;

// OverLimit if the texts of a sheet are longer than kMostSheetBytes in all.
absl::Status ValidateTextBytes(size_t bytes);
size_t TextBytes(const std::vector<std::string>& texts);

// INVALID_ARGUMENT if a text for a heading or the running header is over kLongestTitle.
absl::Status ValidateHeading(const std::string& field, const std::string& text);

// Title, designer and version at the head of the first page.
void AddMasthead(Flow& flow, const std::string& kind, const std::string& title,
                 const std::string& designer, const std::string& version_line,
                 const std::string& release_date, const std::string& hash_line);

// A section of one paragraph a text; nothing if there is none.
void AddBullets(Flow& flow, const std::string& heading, const std::vector<std::string>& texts);
void AddDefinitions(Flow& flow, const std::string& heading,
                    const std::vector<sheets::Definition>& definitions);
// Rows behind a hanging indent, the words before the first colon bold.
void AddRows(Flow& flow, const std::string& heading, const std::vector<std::string>& rows);
// Cautions in a frame of their own.
void AddCautions(Flow& flow, const std::vector<std::string>& cautions);

TextStyle BodyStyle();

}  // namespace rowproof::drawing

#endif  // ROWPROOF_SERVICES_DRAWING_SHEETS_SHEET_PARTS_H_
