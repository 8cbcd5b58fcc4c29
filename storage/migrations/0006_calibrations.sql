-- Calibrations that designers keep: the yarn that stitches take, by measurements of their own.

create table calibration (
  calibration_id text primary key,
  account_id     text not null references account,
  title          text not null,
  -- What it was measured in.
  technique      smallint not null check (technique between 0 and 2),    -- spike, overlay, inset
  facing         smallint check (facing between 0 and 2),                -- one-face, two-face, paired
  ends           smallint check (ends between 0 and 2),                  -- cut, carried, waiting
  weight_class   smallint not null check (weight_class between 0 and 7),
  revision_count integer not null check (revision_count >= 1),
  change_count   integer not null default 1,  -- for the etag: a new title or revision is a change
  created_at     timestamptz not null
);
create index on calibration (account_id, created_at, calibration_id);

-- Never changed once written: what the measurements in force said together.
create table calibration_revision (
  calibration_id    text not null references calibration on delete cascade,
  number            integer not null check (number >= 1),
  created_at        timestamptz not null,
  note              text not null,
  model_version     integer not null,
  measurement_count integer not null,
  path              double precision[] not null check (cardinality(path) = 18),
  covariance        double precision[] not null check (cardinality(covariance) = 171),
  mean_fabric_mm    double precision[] not null check (cardinality(mean_fabric_mm) = 3),
  relative_before   double precision[] not null check (cardinality(relative_before) = 6),
  relative_after    double precision[] not null check (cardinality(relative_after) = 6),
  primary key (calibration_id, number)
);

-- A measurement is in force from its first revision until the one that left it out.
create table calibration_measurement (
  calibration_id  text not null references calibration on delete cascade,
  number          integer not null check (number >= 1),
  first_revision  integer not null,
  left_out_by     integer,
  kind            smallint not null check (kind between 0 and 2),  -- unravelled, weighed, piece
  note            text not null,
  ch              double precision not null,  -- how many stitches of each kind
  sc              double precision not null,
  ssc             double precision not null,
  dc2             double precision not null,
  dc3             double precision not null,
  sl_st           double precision not null,
  w_mm            double precision not null,
  h_mm            double precision not null,
  d_mm            double precision not null,
  beside_mm       double precision not null,
  length_mm       double precision not null,
  uncertainty_mm  double precision not null,
  relative_spread double precision not null,
  primary key (calibration_id, number)
);
