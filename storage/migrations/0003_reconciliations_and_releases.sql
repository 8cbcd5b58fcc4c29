-- Reconciliations of test calls, and releases with their files.

-- A seat's measurement that takes no part in reconciliations, by the designer's decision.
create table set_aside (
  pattern_id text not null,
  call_id    text not null,
  seat_id    text not null,
  quantity   smallint not null check (quantity between 1 and 6),  -- yarn A, B, border, width, height, time
  note       text not null,
  set_at     timestamptz not null,
  primary key (pattern_id, call_id, seat_id, quantity),
  foreign key (pattern_id, call_id, seat_id) references seat
);

-- Never changed once written: `result` holds what was used and what came out.
create table reconciliation (
  pattern_id     text not null,
  call_id        text not null,
  number         integer not null check (number >= 1),
  author_id      text not null references account,
  created_at     timestamptz not null,
  version_number integer not null,
  model_version  integer not null,
  result         jsonb not null,
  primary key (pattern_id, call_id, number),
  foreign key (pattern_id, call_id) references test_call,
  foreign key (pattern_id, version_number) references version
);

create table release (
  pattern_id         text not null references pattern,
  release_id         text not null,
  version_number     integer not null,
  call_id            text not null default '',    -- '': none
  reconciliation     integer not null default 0,  -- 0: the estimate's amounts are printed
  author_id          text not null references account,
  created_at         timestamptz not null,
  gate_code          smallint[] not null,  -- 0 chart workable, 1 text equals chart, 2 errata
                                           -- decided, 3 sizes tested, 4 predictions reconciled
  gate_state         smallint[] not null,  -- 1 met, 2 passed over
  gate_sentence      text[] not null,
  gate_reason        text[] not null,      -- of passing over
  versions_concerned integer[] not null,
  primary key (pattern_id, release_id),
  foreign key (pattern_id, version_number) references version
);
create index on release (pattern_id, created_at, release_id);

-- The bytes as they were written on publishing.
create table release_file (
  pattern_id     text not null,
  release_id     text not null,
  kind           smallint not null check (kind between 1 and 3),  -- pattern sheet PDF, errata sheet PDF, text
  content_sha256 bytea not null check (octet_length(content_sha256) = 32),
  content        bytea not null,
  primary key (pattern_id, release_id, kind),
  foreign key (pattern_id, release_id) references release
);
-- PDFs are compressed already.
alter table release_file alter column content set storage external;
