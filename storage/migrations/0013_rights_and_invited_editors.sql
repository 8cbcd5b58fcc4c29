-- One account for all that a person is: what it is to a pattern is in its memberships, and creating
-- patterns is a right, which the operator gives.
alter table account add column may_create_patterns boolean not null default false;
update account set may_create_patterns = true where kind = 1;
alter table account drop column kind;

-- Technical editors, those whose invitation is out included. An editor with an account has a
-- membership as well.
create table editor (
  pattern_id        text not null references pattern,
  editor_id         text not null,
  account_id        text references account,  -- null: the invitation is out
  label             text not null,            -- what the designer calls the invitation
  invitation_sha256 bytea unique check (octet_length(invitation_sha256) = 32),
  created_at        timestamptz not null,
  expires_at        timestamptz not null,     -- of the invitation
  accepted_at       timestamptz,
  primary key (pattern_id, editor_id)
);
-- Editors who were given an account and a token keep both; their names stay as they were.
insert into editor (pattern_id, editor_id, account_id, label, created_at, expires_at, accepted_at)
select m.pattern_id, m.account_id, m.account_id, '', a.created_at, a.created_at, a.created_at
from membership m join account a using (account_id) where m.role = 3;
