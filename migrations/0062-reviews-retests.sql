-- Review of a run after its validity is decided, and runs beyond those a plan asks for: only by an authorisation that
-- counts them.

call make_version('run_review', 'run');
alter table run_review
  -- What was reviewed: the decision, and how much had been said of the run.
  add validity_decision_id uuid not null,
  add run_version integer not null check (run_version > 0),
  add note text,
  add foreign key (lab_id, validity_decision_id) references validity_decision;

call make_numbered('retest');
alter table retest
  add lot_id uuid not null,
  add plan_line_id uuid not null,
  add runs integer not null check (runs between 1 and 20),
  add ground text not null check (ground in
    ('invalid run', 'assignable cause found', 'asked for from outside', 'for information, outside the claim')),
  add reason text not null,
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, plan_line_id) references plan_line;
create index on retest (lab_id, lot_id);

-- A run that was made by an authorisation. Each place in it is used once.
call make_evidence('retest_use');
alter table retest_use
  add retest_id uuid not null,
  add run_id uuid not null,
  add place integer not null check (place > 0),
  add unique (lab_id, run_id),
  add unique (lab_id, retest_id, place),
  add foreign key (lab_id, retest_id) references retest,
  add foreign key (lab_id, run_id) references run;

create function retest_has_place() returns trigger language plpgsql as $$
begin
  if new.place > (select runs from retest where lab_id = new.lab_id and id = new.retest_id) then
    raise exception 'This authorisation allows no further run.' using errcode = 'BB007';
  end if;
  return new;
end $$;
create trigger retest_has_place before insert on retest_use for each row execute function retest_has_place();
