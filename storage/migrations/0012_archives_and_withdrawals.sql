-- A pattern that is put away, and a release that is taken back: both stay readable.
alter table pattern add column archived_at timestamptz;
alter table release
  add column withdrawn_at timestamptz,
  add column withdraw_reason text not null default '';
