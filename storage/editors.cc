#include "storage/editors.h"

#include <pqxx/pqxx>

#include "services/domain/names/names.h"
#include "storage/stored_field.h"

namespace rowproof::storage {
namespace {

constexpr Statement kInsert{
    "insert_editor",
    "insert into editor (pattern_id, editor_id, label, invitation_sha256, created_at, expires_at) "
    "values ($1, $2, $3, $4, from_micros($5), from_micros($6))"};
constexpr Statement kLoad{
    "load_editor",
    "select e.pattern_id, e.editor_id, e.account_id, coalesce(p.display_name, '') as display_name, "
    "e.label, "
    "to_micros(e.created_at), to_micros(e.expires_at), to_micros(e.accepted_at) "
    "from editor e left join person p using (account_id) "
    "where e.pattern_id = $1 and e.editor_id = $2"};
constexpr Statement kList{
    "list_editors",
    "select e.pattern_id, e.editor_id, e.account_id, coalesce(p.display_name, '') as display_name, "
    "e.label, "
    "to_micros(e.created_at), to_micros(e.expires_at), to_micros(e.accepted_at) "
    "from editor e left join person p using (account_id) where e.pattern_id = $1 "
    "and ($2::bigint is null or (e.created_at, e.editor_id) > (from_micros($2::bigint), $3)) "
    "order by e.created_at, e.editor_id limit $4"};
constexpr Statement kCount{"count_editors",
                           "select count(*) from editor where pattern_id = $1 "
                           "and (accepted_at is not null or expires_at > from_micros($2))"};
constexpr Statement kReplaceInvitation{
    "replace_editor_invitation",
    "update editor set invitation_sha256 = $3 "
    "where pattern_id = $1 and editor_id = $2 and accepted_at is null"};
// A write that locks its pattern first, as every other: admission does not know the caller yet.
constexpr Statement kLockInvited{
    "lock_invited_editor",
    "with p as materialized (select pattern_id from pattern "
    "where pattern_id = (select pattern_id from editor where invitation_sha256 = $1) "
    "for no key update) "
    "select e.pattern_id, e.editor_id, e.account_id, '' as display_name, e.label, "
    "to_micros(e.created_at), to_micros(e.expires_at), to_micros(e.accepted_at) "
    "from p join editor e using (pattern_id) where e.invitation_sha256 = $1 "
    "for no key update of e"};
constexpr Statement kAccept{
    "accept_editor",
    "with m as (insert into membership (account_id, pattern_id, role) values ($3, $1, 3)) "
    "update editor set account_id = $3, accepted_at = from_micros($4::bigint), label = '' "
    "where pattern_id = $1 and editor_id = $2"};
constexpr Statement kDelete{
    "delete_editor",
    "with e as (delete from editor where pattern_id = $1 and editor_id = $2 returning account_id), "
    "m as (delete from membership where pattern_id = $1 and role = 3 "
    "and account_id in (select account_id from e)) select count(*) from e"};

access::EditorRecord EditorFrom(const pqxx::row& row) {
  return ReadRecord(
      "editor",
      [&] {
        return ToString(EditorName{{row[0].c_str()}, {row[1].c_str()}});
      },
      [&]() -> access::EditorRecord {
        return {{TextIn(row[0])},
                {TextIn(row[1])},
                {row[2].is_null() ? std::string() : TextIn(row[2])},
                TextIn(row[3]),
                TextIn(row[4]),
                MomentIn(row[5], "created_at"),
                MomentIn(row[6], "expires_at"),
                OptionalMomentIn(row[7], "accepted_at")};
      });
}

std::optional<access::EditorRecord> FirstOf(const pqxx::result& result) {
  if (result.empty()) return std::nullopt;
  return EditorFrom(result.front());
}

}  // namespace

void InsertEditor(Transaction& transaction, const access::EditorRecord& editor,
                  const Sha256& invitation_sha256) {
  Run(transaction, kInsert, editor.pattern.value, editor.id.value, editor.label,
      Binary(invitation_sha256), Micros(editor.created_at), Micros(editor.expires_at));
}

std::optional<access::EditorRecord> LoadEditor(Transaction& transaction, const PatternId& pattern,
                                               const EditorId& id) {
  return FirstOf(Run(transaction, kLoad, pattern.value, id.value));
}

std::vector<access::EditorRecord> ListEditors(Transaction& transaction, const PatternId& pattern,
                                              std::optional<Moment> after, const EditorId& after_id,
                                              int limit) {
  std::vector<access::EditorRecord> editors;
  const pqxx::result result =
      Run(transaction, kList, pattern.value, MicrosOrNull(after), after_id.value, limit);
  for (const auto& row : result) editors.push_back(EditorFrom(row));
  return editors;
}

int CountEditors(Transaction& transaction, const PatternId& pattern, Moment now) {
  return Run(transaction, kCount, pattern.value, Micros(now)).front()[0].as<int>();
}

bool ReplaceEditorInvitation(Transaction& transaction, const PatternId& pattern, const EditorId& id,
                             const Sha256& invitation_sha256) {
  return Run(transaction, kReplaceInvitation, pattern.value, id.value, Binary(invitation_sha256))
             .affected_rows() == 1;
}

std::optional<access::EditorRecord> LockInvitedEditor(Transaction& transaction,
                                                      const Sha256& invitation_sha256) {
  return FirstOf(Run(transaction, kLockInvited, Binary(invitation_sha256)));
}

void AcceptEditor(Transaction& transaction, const access::EditorRecord& editor) {
  Run(transaction, kAccept, editor.pattern.value, editor.id.value, editor.account.value,
      MicrosOrNull(editor.accepted_at));
}

bool DeleteEditor(Transaction& transaction, const PatternId& pattern, const EditorId& id) {
  return Run(transaction, kDelete, pattern.value, id.value).front()[0].as<int>() == 1;
}

}  // namespace rowproof::storage
