-- Whose seat was given up or cancelled keeps the seat and their own reports, and sees nothing else of the
-- pattern. Admission reads memberships alone, in every call: that is why the state is said here as well.
alter table membership add column seat_ended boolean not null default false;
update membership m set seat_ended = true
from seat s
where m.role = 2 and (s.pattern_id, s.call_id, s.seat_id) = (m.pattern_id, m.call_id, m.seat_id)
  and s.state in (4, 5);
create view current_membership as select * from membership where not seat_ended;
