-- In which state a specimen is. A specimen of which nothing is said here is as it was received; that a run destroyed it
-- stands in "destruction", whatever is said here.
call make_version('specimen_state', 'specimen');
alter table specimen_state
  add state text not null check (state in ('received', 'conditioned', 'ready', 'retained')),
  add note text not null;

-- Which run follows which on one specimen. The first names none, and the indexes let each place in that order be taken
-- once, whoever else tries in the same moment.
call make_evidence('specimen_use');
alter table specimen_use
  add specimen_id uuid not null,
  add run_id uuid not null,
  add after_run_id uuid,
  add unique (lab_id, run_id),
  add foreign key (lab_id, specimen_id) references specimen,
  add foreign key (lab_id, run_id) references run,
  add foreign key (lab_id, after_run_id) references run;
create unique index used_first_once on specimen_use (lab_id, specimen_id) where after_run_id is null;
create unique index used_after_once on specimen_use (lab_id, after_run_id);

-- A specimen that a run has loaded is run again only where the plan says so before: under a line that names the lines
-- whose survivors it takes. A run that is void loaded nothing, nor did an invalid one after which the part was found sound.
create function use_must_be_possible() returns trigger language plpgsql as $$
declare
  loaded text;
begin
  if not exists (select from run where lab_id = new.lab_id and id = new.run_id and specimen_id = new.specimen_id)
    or (new.after_run_id is null) = exists (
      select from run where lab_id = new.lab_id and specimen_id = new.specimen_id and id <> new.run_id
    )
    or (new.after_run_id is not null and not exists (
      select from run where lab_id = new.lab_id and specimen_id = new.specimen_id and id = new.after_run_id
    ))
  then
    raise exception 'The use of a specimen names a run of it, and the run before that, where there was one.'
      using errcode = 'BB005';
  end if;
  select run.key into loaded
  from run
  join lateral (
    select plan_line_id from run_version where lab_id = run.lab_id and record_id = run.id order by version desc limit 1
  ) body on true
  join plan_line line on line.lab_id = run.lab_id and line.id = body.plan_line_id
  join plan_revision plan on plan.lab_id = line.lab_id and plan.id = line.plan_revision_id
  left join lateral (
    select validity from validity_decision where lab_id = run.lab_id and record_id = run.id order by version desc limit 1
  ) decided on true
  left join lateral (
    select content ->> 'partSound' as part from examination
    where lab_id = run.lab_id and record_id = run.id order by version desc limit 1
  ) seen on true
  where run.lab_id = new.lab_id and run.specimen_id = new.specimen_id and run.id <> new.run_id
    and decided.validity is distinct from 'void'
    and not coalesce(decided.validity = 'invalid' and seen.part = 'sound', false)
    and not exists (
      select from run_version own
      join plan_line own_line on own_line.lab_id = own.lab_id and own_line.id = own.plan_line_id
      join plan_revision own_plan on own_plan.lab_id = own.lab_id and own_plan.id = own_line.plan_revision_id
      cross join lateral jsonb_array_elements(own_plan.content -> 'lines') item
      where own.lab_id = new.lab_id and own.record_id = new.run_id and own_plan.record_id = plan.record_id
        and item ->> 'line' = own_line.key
        and coalesce(item -> 'survivorsOf', '[]'::jsonb) @> to_jsonb(line.key)
    )
  limit 1;
  if loaded is not null then
    raise exception 'The specimen was loaded in run %, and the plan takes no survivor of that.', loaded
      using errcode = 'BB007';
  end if;
  return new;
end $$;
create trigger use_must_be_possible before insert on specimen_use
  for each row execute function use_must_be_possible();
