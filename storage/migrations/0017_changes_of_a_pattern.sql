-- Which pattern a write changed, and in which transaction: so a release can know whether anything of its
-- pattern was written since it was read. A counter would make the reports of a call wait for each other; the
-- claim, which every write makes, is a row of its own. Across a restored dump the numbers of transactions
-- mean nothing, and only make a release look once more.
alter table request_claim
  add column pattern_id text not null default '',
  add column changed_in xid8 not null default pg_current_xact_id();
create index request_claim_change on request_claim (pattern_id, changed_in) where pattern_id <> '';
