-- Accounts, patterns, versions, and the test calls with their seats.

-- Times are microseconds of Unix time in parameters and results, timestamptz in tables.
create function from_micros(micros bigint) returns timestamptz
  language sql immutable parallel safe
  return timestamptz 'epoch' + micros * interval '1 microsecond';
create function to_micros(moment timestamptz) returns bigint
  language sql immutable parallel safe
  return (extract(epoch from moment) * 1000000)::bigint;

create table account (
  account_id  text primary key,
  kind        smallint not null check (kind between 1 and 3),  -- 1 designer, 2 tester, 3 editor
  created_at  timestamptz not null,
  erased_at   timestamptz
);

-- Personal data, apart from everything else so that it can be erased.
create table person (
  account_id   text primary key references account,
  display_name text not null,
  mail_address text not null default ''
);

create table token (
  token_id      text primary key,
  account_id    text not null references account,
  secret_sha256 bytea not null unique check (octet_length(secret_sha256) = 32),
  label         text not null,
  created_at    timestamptz not null,
  expires_at    timestamptz not null,
  revoked_at    timestamptz
);
create index on token (account_id, created_at);

create table pattern (
  pattern_id    text primary key,
  designer_id   text not null references account,
  title         text not null,
  version_count integer not null default 0,
  revision      integer not null default 1,
  created_at    timestamptz not null
);

-- Who is what to which pattern. Testers have one row a call.
create table membership (
  account_id text not null references account,
  pattern_id text not null references pattern,
  call_id    text not null default '',
  role       smallint not null check (role between 1 and 3),  -- as account.kind
  seat_id    text not null default '',
  primary key (account_id, pattern_id, call_id)
);
create index on membership (pattern_id, role);

create table version (
  pattern_id    text not null references pattern,
  number        integer not null check (number >= 1),
  parent_number integer not null default 0,
  author_id     text not null references account,
  created_at    timestamptz not null,
  note          text not null,
  workable      boolean not null,
  content_hash  bytea not null check (octet_length(content_hash) = 32),
  content       bytea not null,  -- canonical encoding
  rules_version integer not null,
  error_count   bigint not null,
  warning_count bigint not null,
  note_count    bigint not null,
  findings      jsonb not null,
  model_version integer not null,
  estimates     jsonb not null,
  primary key (pattern_id, number)
);
-- Charts are compressed already by being bits; of estimates compression would save little. Either
-- would only cost time on submit.
alter table version alter column content set storage external;
alter table version alter column estimates set storage external;

create table test_call (
  pattern_id     text not null references pattern,
  call_id        text not null,
  state          smallint not null,
  version_number integer not null,  -- the version that testers work from now
  revision       integer not null default 1,
  event_count    integer not null default 0,
  created_at     timestamptz not null,
  settings       jsonb not null,
  primary key (pattern_id, call_id),
  foreign key (pattern_id, version_number) references version
);

-- Versions that a call's testers were sent, in order.
create table call_version (
  pattern_id text not null,
  call_id    text not null,
  number     integer not null,
  sent_at    timestamptz not null,
  primary key (pattern_id, call_id, number),
  foreign key (pattern_id, call_id) references test_call
);

create table seat (
  pattern_id        text not null,
  call_id           text not null,
  seat_id           text not null,
  state             smallint not null,
  size_name         text not null,
  account_id        text references account,
  invitation_sha256 bytea unique check (octet_length(invitation_sha256) = 32),
  created_at        timestamptz not null,
  taken_at          timestamptz,
  ended_at          timestamptz,
  report_count      integer not null default 0,
  primary key (pattern_id, call_id, seat_id),
  foreign key (pattern_id, call_id) references test_call
);

-- What a write with this request id made; kept for 30 days.
create table request_claim (
  account_id text not null,
  request_id text not null,
  method     text not null,
  digest     bytea not null,
  result     text not null,
  created_at timestamptz not null,
  primary key (account_id, request_id)
);
create index on request_claim (created_at);
