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
