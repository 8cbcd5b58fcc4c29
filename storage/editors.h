// Rows of patterns' editors and their invitations. Every function throws libpqxx's exceptions,
// which end in Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_EDITORS_H_
#define ROWPROOF_STORAGE_EDITORS_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/access/accounts.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

void InsertEditor(Transaction& transaction, const access::EditorRecord& editor,
                  const Sha256& invitation_sha256);
std::optional<access::EditorRecord> LoadEditor(Transaction& transaction, const PatternId& pattern,
                                               const EditorId& id);
// In the order (created_at, id), after (after, after_id) if given.
std::vector<access::EditorRecord> ListEditors(Transaction& transaction, const PatternId& pattern,
                                              std::optional<Moment> after, const EditorId& after_id,
                                              int limit);
// Editors, and invitations that can be accepted at that time.
int CountEditors(Transaction& transaction, const PatternId& pattern, Moment now);
// Gives an invitation that was not accepted another token. False if there is none.
bool ReplaceEditorInvitation(Transaction& transaction, const PatternId& pattern, const EditorId& id,
                             const Sha256& invitation_sha256);
// An invitation's editor, locked together with its pattern until the transaction ends.
std::optional<access::EditorRecord> LockInvitedEditor(Transaction& transaction,
                                                      const Sha256& invitation_sha256);
// The account becomes the editor: its time, and the account's membership. The label, which named
// the person before the account did, goes.
void AcceptEditor(Transaction& transaction, const access::EditorRecord& editor);
// With the account's membership. Whether there was one.
bool DeleteEditor(Transaction& transaction, const PatternId& pattern, const EditorId& id);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_EDITORS_H_
