-- A report's errata lie as typed arrays in its row, as the rest of it does; what tells one erratum
-- from another lies with the erratum. One row a report instead of one more for each erratum.

drop view report_with_errata;
drop view erratum_as_reported;

alter table report
  add column erratum_id           text[] not null default '{}',  -- in the report's order
  add column erratum_first        integer[] not null default '{}',
  add column erratum_last         integer[] not null default '{}',
  add column erratum_counted_from smallint[] not null default '{}',  -- 0 stitch 1, 1 row start
  add column erratum_seen_in      smallint[] not null default '{}',  -- chart, text, both, elsewhere
  add column erratum_remark       text[] not null default '{}';
update report r
set erratum_id = x.id, erratum_first = x.first_counted, erratum_last = x.last_counted,
    erratum_counted_from = x.counted_from, erratum_seen_in = x.seen_in, erratum_remark = x.remark
from (select pattern_id, call_id, seat_id, report_number, array_agg(erratum_id order by place) as id,
             array_agg(first_counted order by place) as first_counted,
             array_agg(last_counted order by place) as last_counted,
             array_agg(counted_from order by place) as counted_from,
             array_agg(seen_in order by place) as seen_in, array_agg(remark order by place) as remark
      from reported_erratum group by pattern_id, call_id, seat_id, report_number) x
where r.pattern_id = x.pattern_id and r.call_id = x.call_id and r.seat_id = x.seat_id
  and r.number = x.report_number;

alter table erratum
  add column worked_row integer, add column kind smallint check (kind between 0 and 7),
  add column was text, add column should_be text;
update erratum e set worked_row = x.worked_row, kind = x.kind, was = x.was, should_be = x.should_be
from reported_erratum x
where x.pattern_id = e.pattern_id and x.call_id = e.call_id and x.seat_id = e.seat_id
  and x.report_number = e.last_report and x.erratum_id = e.erratum_id;
alter table erratum
  alter column worked_row set not null, alter column kind set not null, alter column was set not null,
  alter column should_be set not null;
drop table reported_erratum;

-- Null while the seat's newest report holds it; else the newest that did. So a report that says
-- again what the one before it said changes no erratum.
alter table erratum alter column last_report drop not null;
update erratum set last_report = null where not withdrawn;
alter table erratum drop column withdrawn;

-- Accounts, versions and seats are never deleted, and a report is written by the statement that
-- updates its seat, under a lock of the call: a foreign key would only lock rows that many writers
-- share.
alter table version drop constraint version_author_id_fkey;
alter table report drop constraint report_entered_by_fkey;
alter table report drop constraint report_pattern_id_version_number_fkey;
alter table report drop constraint report_pattern_id_call_id_seat_id_fkey;

-- Claims are made in the order of their time: a summary of each range of pages finds the old ones,
-- and costs a write next to nothing.
drop index request_claim_created_at_idx;
create index on request_claim using brin (created_at);

-- Calling them immutable keeps PostgreSQL from writing their bodies into the statement, since what
-- they are made of is stable only.
alter function from_micros(bigint) stable;
alter function to_micros(timestamptz) stable;

-- An erratum as its newest revision says it.
create view erratum_as_reported as
select e.pattern_id, e.call_id, e.erratum_id, e.seat_id, r.size_name, e.first_report,
       r.number as last_report, r.version_number, e.worked_row, r.erratum_first[x.place] as first_counted,
       r.erratum_last[x.place] as last_counted, r.erratum_counted_from[x.place] as counted_from,
       r.erratum_seen_in[x.place] as seen_in, e.kind, e.was, e.should_be,
       r.erratum_remark[x.place] as remark, e.chart_row, e.first_stitch, e.last_stitch,
       e.last_report is not null as withdrawn, e.state, e.decision_note,
       to_micros(e.decided_at) as decided, to_micros(e.listed_at) as listed
from erratum e
  join seat s on s.pattern_id = e.pattern_id and s.call_id = e.call_id and s.seat_id = e.seat_id
  join report r on r.pattern_id = e.pattern_id and r.call_id = e.call_id and r.seat_id = e.seat_id
    and r.number = coalesce(e.last_report, s.report_count),
  lateral (select array_position(r.erratum_id, e.erratum_id) as place) x;

-- A report with its errata in their order.
create view report_with_errata as
select r.*, to_micros(r.created_at) as created, x.*
from report r, lateral (
  select coalesce(array_agg(e.worked_row order by u.place), '{}') as erratum_row,
         coalesce(array_agg(e.kind order by u.place), '{}') as erratum_kind,
         coalesce(array_agg(e.was order by u.place), '{}') as erratum_was,
         coalesce(array_agg(e.should_be order by u.place), '{}') as erratum_should_be
  from unnest(r.erratum_id) with ordinality u (id, place)
    join erratum e on e.pattern_id = r.pattern_id and e.call_id = r.call_id
      and e.erratum_id = u.id) x;
