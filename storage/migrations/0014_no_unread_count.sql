-- Nothing has ever read or raised it.
alter table test_call drop column event_count;
