#include "services/domain/patterns/version_content.h"

#include <algorithm>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/rows/writing/writable.h"
#include "services/domain/status_macros.h"
#include "services/domain/text.h"

namespace rowproof::patterns {
namespace {

absl::Status CheckPassage(const char* field, const std::string& text, size_t longest) {
  RETURN_IF_ERROR(ValidateText(field, text, longest, true));
  const auto lines = static_cast<size_t>(std::count(text.begin(), text.end(), '\n')) + 1;
  if (lines <= kMostLines) return absl::OkStatus();
  return InvalidField(field, fmt::format("{} lines", lines),
                      fmt::format("at most {} lines", kMostLines));
}

// The names in the design and the materials are checked there for length only.
absl::Status CheckNames(const VersionContent& content) {
  for (size_t i = 0; i < content.design.sizes.size(); ++i) {
    if (auto status = ValidateText(fmt::format("design.sizes[{}].name", i),
                                   content.design.sizes[i].name, chart::kLongestSizeName, false);
        !status.ok()) {
      return status;
    }
  }
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    const estimate::Yarn* yarn = estimate::FindYarn(content.materials, colour);
    if (yarn == nullptr) continue;
    const std::string field = "materials." + estimate::YarnField(colour);
    for (const auto& [part, text] :
         {std::pair{".name", &yarn->name}, std::pair{".fibre", &yarn->fibre}}) {
      RETURN_IF_ERROR(ValidateText(field + part, *text, estimate::kLongestYarnText, false));
    }
  }
  return absl::OkStatus();
}

}  // namespace

absl::Status Validate(const VersionContent& content) {
  RETURN_IF_ERROR(ValidateName("title", content.title, kLongestTitle));
  if (auto status = chart::Validate(content.design); !status.ok()) {
    return UnderField(status, "design");
  }
  if (auto status = estimate::Validate(content.materials); !status.ok()) {
    return UnderField(status, "materials");
  }
  RETURN_IF_ERROR(CheckNames(content));
  if (auto status = rows::CheckRowStyle(content.design, content.row_style); !status.ok()) {
    return UnderField(status, "row_settings");
  }
  const struct {
    const char* field;
    const std::string& text;
    size_t longest;
  } passages[] = {{"introduction", content.introduction, kLongestPassage},
                  {"notes", content.notes, kLongestPassage},
                  {"finishing", content.finishing, kLongestPassage},
                  {"designer_text", content.designer_text, kLongestDesignerText}};
  for (const auto& passage : passages) {
    RETURN_IF_ERROR(CheckPassage(passage.field, passage.text, passage.longest));
  }
  if (content.designer_text.empty() && !content.designer_text_terms.has_value()) {
    return InvalidField("designer_text_terms", "unspecified",
                        "unset if there is no designer's text");
  }
  return ValidateText("level", content.level, kLongestLevel, false);
}

}  // namespace rowproof::patterns
