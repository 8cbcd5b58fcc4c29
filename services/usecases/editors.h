// Technical editors of a pattern, and their invitations.
#ifndef ROWPROOF_SERVICES_USECASES_EDITORS_H_
#define ROWPROOF_SERVICES_USECASES_EDITORS_H_

#include <optional>
#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/access/accounts.h"
#include "services/domain/names/names.h"
#include "services/usecases/application.h"
#include "services/usecases/joining.h"

namespace rowproof::usecases {

inline constexpr int kMostEditors = 50;  // invitations that can be accepted included
inline constexpr size_t kLongestEditorLabel = 60;
inline constexpr int kMostInvitationDays = 60;

// An editor as the caller sees it at `now`.
struct ReadEditor {
  access::EditorRecord row;
  Moment now;
};

struct NewEditor {
  ReadEditor editor;
  std::string invitation;
};

struct AcceptedEditor {
  ReadEditor editor;
  std::string secret;  // of a new account; else empty
};

struct EditorPage {
  std::vector<ReadEditor> editors;
  bool more = false;
};

// `valid_days` 0: kMostInvitationDays.
absl::StatusOr<NewEditor> CreateEditor(Application& application, RequestContext& context,
                                       const PatternId& pattern, const std::string& label,
                                       int valid_days);
absl::StatusOr<AcceptedEditor> AcceptEditorInvitation(Application& application,
                                                      RequestContext& context,
                                                      const std::string& invitation,
                                                      const Joiner& joiner);
absl::StatusOr<ReadEditor> GetEditor(Application& application, RequestContext& context,
                                     const EditorName& name);
// In the order of the invitations, after (after, after_id) if given.
absl::StatusOr<EditorPage> ListEditors(Application& application, RequestContext& context,
                                       const PatternId& pattern, std::optional<Moment> after,
                                       const EditorId& after_id, int limit);
absl::Status DeleteEditor(Application& application, RequestContext& context,
                          const EditorName& name);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_EDITORS_H_
