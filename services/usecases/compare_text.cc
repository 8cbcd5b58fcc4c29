#include "services/usecases/compare_text.h"

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/usecases/read_version.h"

namespace rowproof::usecases {

absl::StatusOr<rows::Comparison> CompareText(const patterns::VersionContent& content,
                                             const Stop& stop) {
  rows::ComparisonSettings settings;
  settings.hand = content.designer_text_hand;
  settings.terms = content.designer_text_terms;
  settings.colours = rows::ColourNames(content.row_style.colour_names);
  return rows::CompareRows(content.design, content.designer_text, settings, stop);
}

absl::StatusOr<rows::Comparison> CompareVersionRows(Application& application,
                                                    RequestContext& context,
                                                    const PatternId& pattern, int number) {
  ASSIGN_OR_RETURN(auto version, GetVersion(application, context, pattern, number));
  if (version.content.designer_text.empty()) {
    return WrongState("NO_DESIGNER_TEXT", ToString(VersionName{pattern, number}),
                      "The version has no designer's text to compare; its rows are "
                      "written from the chart.");
  }
  return CompareText(version.content, context.stop);
}

}  // namespace rowproof::usecases
