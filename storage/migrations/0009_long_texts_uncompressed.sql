-- 0005 made these columns text, which took back how 0001 has them stored: compressing them was a
-- tenth of a submit.
alter table version
  alter column findings set storage external,
  alter column estimates set storage external,
  alter column comparison set storage external;
