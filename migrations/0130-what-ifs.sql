-- A what-if is worked out and forgotten: it is marked as such in its content, and can never be kept as an evaluation.

alter table evaluation
  add constraint evaluation_is_no_what_if check (not (content ? 'whatIf'));
