-- A time is a moment: "infinity", which PostgreSQL also takes for one, has no microseconds.
do $$
declare
  kept record;
begin
  for kept in
    select c.relname as table_name, a.attname as column_name
    from pg_attribute a join pg_class c on c.oid = a.attrelid
    where c.relnamespace = current_schema()::regnamespace and c.relkind = 'r'
      and a.atttypid = 'timestamptz'::regtype and a.attnum > 0 and not a.attisdropped
    order by 1, 2
  loop
    execute format('alter table %I add constraint %I check (isfinite(%I))',
                   kept.table_name, kept.table_name || '_' || kept.column_name || '_finite',
                   kept.column_name);
  end loop;
end
$$;
