-- Testers list their own seats.
create index on seat (account_id, created_at, seat_id) where account_id is not null;
