-- Reports and reconciliations know every yarn of a pattern: A, B, border, and C to H.

-- report.yarn_colour: 0 A, 1 B, 2 border, 3 to 8 C to H.
-- Linear density, g/km, of a yarn without a ball band. Empty where no yarn of the report has one, as
-- in all that were stored before: else one element an entry.
alter table report add column yarn_tex double precision[] not null default '{}';

-- yarn A, B, border, width, height, time, yarn C to H.
alter table set_aside drop constraint set_aside_quantity_check;
alter table set_aside add constraint set_aside_quantity_check check (quantity between 1 and 12);

-- A report with its errata in their order; the view names the columns it was made with.
drop view report_with_errata;
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
