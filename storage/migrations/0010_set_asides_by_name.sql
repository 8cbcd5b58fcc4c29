-- What is set aside is a resource with a name of its own.
alter table set_aside add column set_aside_id text;
update set_aside
set set_aside_id = left(md5(concat_ws('/', pattern_id, call_id, seat_id, quantity)), 16);
alter table set_aside alter column set_aside_id set not null;
create unique index on set_aside (pattern_id, call_id, set_aside_id);
