-- Reports, the errata in them, and what other testers say of those.

-- Each revision is a whole report; nothing in it is ever changed. Measured values lie as typed
-- arrays, one element an entry; a null element was not measured.
create table report (
  pattern_id     text not null,
  call_id        text not null,
  seat_id        text not null,
  number         integer not null check (number >= 1),
  entered_by     text not null references account,
  on_behalf      boolean not null,
  created_at     timestamptz not null,
  version_number integer not null,
  size_name      text not null,
  worked_from    smallint not null check (worked_from between 1 and 3),  -- chart, text, both
  hand           smallint not null check (hand between 0 and 1),         -- right, left
  terms          smallint not null check (terms between 0 and 1),        -- US, UK

  yarn_colour         smallint[] not null,  -- 0 A, 1 B, 2 border
  yarn_is_own         boolean[] not null,   -- the next six describe it; else the version's yarn
  yarn_name           text[] not null,
  yarn_fibre          text[] not null,
  yarn_weight_class   integer[] not null,
  yarn_wraps_per_inch double precision[] not null,
  yarn_ball_length_m  double precision[] not null,
  yarn_ball_mass_g    double precision[] not null,
  yarn_length_m       double precision[] not null,
  yarn_length_step_m  double precision[] not null,
  yarn_mass_before_g  double precision[] not null,
  yarn_mass_after_g   double precision[] not null,
  yarn_scale_step_g   double precision[] not null,
  yarn_with_swatch    boolean[] not null,
  yarn_with_border    boolean[] not null,

  hook_mm        double precision,
  ends           smallint check (ends between 0 and 2),  -- cut, carried, waiting

  gauge_is_after       boolean[] not null,  -- blocking
  gauge_stitches       double precision[] not null,
  gauge_rows           double precision[] not null,
  gauge_stitch_span_mm double precision[] not null,
  gauge_row_span_mm    double precision[] not null,
  gauge_scale_step_mm  double precision[] not null,

  how_blocked      text not null,
  width_before_mm  double precision,
  height_before_mm double precision,
  width_after_mm   double precision,
  height_after_mm  double precision,
  tape_step_mm     double precision not null,
  minutes          double precision,
  last_row         integer not null check (last_row >= 0),
  finished         boolean not null,
  remarks          text not null,
  primary key (pattern_id, call_id, seat_id, number),
  foreign key (pattern_id, call_id, seat_id) references seat,
  foreign key (pattern_id, version_number) references version
);

-- One fault as one seat reports it, through all the revisions that hold it.
create table erratum (
  pattern_id    text not null,
  call_id       text not null,
  erratum_id    text not null,
  seat_id       text not null,
  first_report  integer not null,
  last_report   integer not null,
  chart_row     integer not null,  -- of the chart as drawn; 0: no row is concerned
  first_stitch  integer not null,  -- of the expanded size; 0: the whole row
  last_stitch   integer not null,
  withdrawn     boolean not null default false,
  state         smallint not null default 1 check (state between 1 and 3),
  decision_note text not null default '',
  decided_at    timestamptz,
  listed_at     timestamptz not null,
  primary key (pattern_id, call_id, erratum_id),
  foreign key (pattern_id, call_id, seat_id) references seat
);
create index on erratum (pattern_id, call_id, seat_id);
create index on erratum (pattern_id, call_id, chart_row, erratum_id);

-- An erratum as one revision says it.
create table reported_erratum (
  pattern_id    text not null,
  call_id       text not null,
  seat_id       text not null,
  report_number integer not null,
  place         integer not null,  -- in the report, from 1
  erratum_id    text not null,
  worked_row    integer not null,
  first_counted integer not null,
  last_counted  integer not null,
  counted_from  smallint not null check (counted_from between 0 and 1),  -- stitch 1, row start
  seen_in       smallint not null check (seen_in between 0 and 3),  -- chart, text, both, elsewhere
  kind          smallint not null check (kind between 0 and 7),
  was           text not null,
  should_be     text not null,
  remark        text not null,
  primary key (pattern_id, call_id, seat_id, report_number, place),
  foreign key (pattern_id, call_id, seat_id, report_number) references report,
  foreign key (pattern_id, call_id, erratum_id) references erratum
);

-- What another seat says of an erratum; a later word replaces an earlier one.
create table erratum_confirmation (
  pattern_id   text not null,
  call_id      text not null,
  erratum_id   text not null,
  seat_id      text not null,
  confirmation smallint not null check (confirmation between 1 and 2),  -- met it too, worked right
  confirmed_at timestamptz not null,
  primary key (pattern_id, call_id, erratum_id, seat_id),
  foreign key (pattern_id, call_id, erratum_id) references erratum,
  foreign key (pattern_id, call_id, seat_id) references seat
);

-- A seat with its tester's name and the place of its newest report.
create view seat_with_report as
select s.pattern_id, s.call_id, s.seat_id, s.state, s.size_name, s.account_id,
       coalesce(p.display_name, '') as display_name, to_micros(s.created_at) as created,
       to_micros(s.taken_at) as taken, to_micros(s.ended_at) as ended, s.report_count,
       coalesce(r.last_row, 0) as last_row, coalesce(r.version_number, 0) as report_version,
       s.created_at
from seat s left join person p using (account_id)
  left join report r on r.pattern_id = s.pattern_id and r.call_id = s.call_id
    and r.seat_id = s.seat_id and r.number = s.report_count;

-- An erratum as its newest revision says it.
create view erratum_as_reported as
select e.pattern_id, e.call_id, e.erratum_id, e.seat_id, r.size_name, e.first_report,
       e.last_report, r.version_number, x.worked_row, x.first_counted, x.last_counted,
       x.counted_from, x.seen_in, x.kind, x.was, x.should_be, x.remark, e.chart_row,
       e.first_stitch, e.last_stitch, e.withdrawn, e.state, e.decision_note,
       to_micros(e.decided_at) as decided, to_micros(e.listed_at) as listed
from erratum e
  join report r on r.pattern_id = e.pattern_id and r.call_id = e.call_id
    and r.seat_id = e.seat_id and r.number = e.last_report
  join reported_erratum x on x.pattern_id = e.pattern_id and x.call_id = e.call_id
    and x.seat_id = e.seat_id and x.report_number = e.last_report and x.erratum_id = e.erratum_id;

-- A report with its errata in their order.
create view report_with_errata as
select r.*, to_micros(r.created_at) as created, x.*
from report r, lateral (
  select coalesce(array_agg(e.erratum_id order by place), '{}') as erratum_id,
         coalesce(array_agg(e.worked_row order by place), '{}') as erratum_row,
         coalesce(array_agg(e.first_counted order by place), '{}') as erratum_first,
         coalesce(array_agg(e.last_counted order by place), '{}') as erratum_last,
         coalesce(array_agg(e.counted_from order by place), '{}') as erratum_counted_from,
         coalesce(array_agg(e.seen_in order by place), '{}') as erratum_seen_in,
         coalesce(array_agg(e.kind order by place), '{}') as erratum_kind,
         coalesce(array_agg(e.was order by place), '{}') as erratum_was,
         coalesce(array_agg(e.should_be order by place), '{}') as erratum_should_be,
         coalesce(array_agg(e.remark order by place), '{}') as erratum_remark
  from reported_erratum e
  where e.pattern_id = r.pattern_id and e.call_id = r.call_id and e.seat_id = r.seat_id
    and e.report_number = r.number) x;
