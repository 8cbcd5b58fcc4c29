-- What the comparison of a designer's own text with the chart found on submit. All null where a
-- version has no such text, or a chart that cannot be written as rows.

alter table version
  add column comparison_version  integer,
  add column comparison_errors   bigint,
  add column comparison_warnings bigint,
  add column comparison_notes    bigint,
  add column comparison          text;  -- terms and findings
