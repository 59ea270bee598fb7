-- Runs: one specimen on one rig, with its passages, files, keyed measurements, examination and decision on validity.

call make_noun('run');
alter table run
  add specimen_id uuid not null,
  add foreign key (lab_id, specimen_id) references specimen;
create index on run (lab_id, specimen_id);

call make_version('run_version', 'run');
alter table run_version
  add plan_line_id uuid not null,
  add method_revision_id uuid not null,
  -- Neither is there for values keyed from a table.
  add rig_id uuid,
  add layout_revision_id uuid,
  add operator_id uuid not null,
  add started_at timestamptz(3) not null,
  add content jsonb not null,
  add foreign key (lab_id, plan_line_id) references plan_line,
  add foreign key (lab_id, method_revision_id) references method_revision,
  add foreign key (lab_id, rig_id) references rig,
  add foreign key (lab_id, layout_revision_id) references layout_revision,
  add foreign key (lab_id, operator_id) references person;
create index on run_version (lab_id, plan_line_id);

-- What stood behind each channel of the run. "Which runs are touched by this sensor, or by this calibration?" is one
-- query. Without calibration the indicated values were taken as they are, and the run's checks say so.
call make_evidence('run_channel');
alter table run_channel
  add run_version_id uuid not null,
  add channel text not null,
  add sensor_placement_id uuid not null,
  add calibration_version_id uuid,
  add unique (lab_id, run_version_id, channel),
  add foreign key (lab_id, run_version_id) references run_version,
  add foreign key (lab_id, sensor_placement_id) references sensor_placement,
  add foreign key (lab_id, calibration_version_id) references calibration_version;
create index on run_channel (lab_id, sensor_placement_id);
create index on run_channel (lab_id, calibration_version_id);

-- One of the run's loadings: the whole of a burst run, a strike, a stage, a step.
call make_evidence('passage');
alter table passage
  add run_id uuid not null,
  add position integer not null check (position > 0),
  add kind text not null check (kind in ('whole run', 'strike', 'stage', 'step')),
  add started_at timestamptz(3) not null,
  add unique (lab_id, run_id, position),
  add foreign key (lab_id, run_id) references run;

call make_evidence('run_file');
alter table run_file
  add run_id uuid not null,
  -- Not there where one file covers several passages.
  add passage_id uuid,
  add position integer not null check (position > 0),
  -- As it was sent, letter by letter.
  add name text not null,
  add raw_id uuid not null,
  add unique (lab_id, run_id, position),
  add foreign key (lab_id, run_id) references run,
  add foreign key (lab_id, passage_id) references passage,
  add foreign key (lab_id, raw_id) references raw_bytes;
create index on run_file (lab_id, raw_id);

call make_version('measurement');
alter table measurement
  add run_id uuid not null,
  add content jsonb not null,
  add foreign key (lab_id, run_id) references run;
create index on measurement (lab_id, run_id);

call make_version('examination', 'run');
alter table examination add content jsonb not null;

call make_version('validity_decision', 'run');
alter table validity_decision
  add validity text not null check (validity in ('valid', 'valid with deviation', 'invalid', 'void')),
  add content jsonb not null;

-- A specimen is destroyed once. The first destruction names no void decision, and the index lets a specimen have one
-- such row only, whoever else tries in the same moment. Where that run is made void, because it was recorded by mistake,
-- a further one is possible, and names the decision that made the one before void, which can be named once only.
call make_evidence('destruction');
alter table destruction
  add specimen_id uuid not null,
  add run_id uuid not null,
  add after_void_id uuid,
  add unique (lab_id, run_id),
  add foreign key (lab_id, specimen_id) references specimen,
  add foreign key (lab_id, run_id) references run,
  add foreign key (lab_id, after_void_id) references validity_decision;
create unique index destroyed_once on destruction (lab_id, specimen_id) where after_void_id is null;
create unique index destroyed_once_after_void on destruction (lab_id, after_void_id);

create function destruction_must_be_possible() returns trigger language plpgsql as $$
begin
  if not exists (select from run where lab_id = new.lab_id and id = new.run_id and specimen_id = new.specimen_id) then
    raise exception 'The run that destroyed a specimen is a run of that specimen.' using errcode = 'BB005';
  end if;
  if new.after_void_id is not null and not exists (
    select from validity_decision decision
    join destruction before on before.lab_id = decision.lab_id and before.run_id = decision.record_id
    where decision.lab_id = new.lab_id and decision.id = new.after_void_id
      and decision.validity = 'void' and before.specimen_id = new.specimen_id
  ) then
    raise exception 'The decision named made no run void that destroyed this specimen.' using errcode = 'BB005';
  end if;
  return new;
end $$;
create trigger destruction_must_be_possible before insert on destruction
  for each row execute function destruction_must_be_possible();
