-- Nonconformities: what does not meet a requirement, and what is done about it until another person closes it. Opening,
-- working and closing are versions of one record, so that its whole story is one list and a change names the version it
-- follows.

call make_numbered('nonconformity');
-- The run whose failed verdict, or whose lab error, opened it: the records open one of each for a run, and no second.
alter table nonconformity
  add source text not null check (source in ('failed verdict', 'lab error', 'found by a person')),
  add run_id uuid,
  add check ((source = 'found by a person') = (run_id is null)),
  add unique (lab_id, run_id, source),
  add foreign key (lab_id, run_id) references run;

call make_version('nonconformity_version', 'nonconformity');
alter table nonconformity_version
  add state text not null check (state in ('open', 'closed')),
  add content jsonb not null,
  add check (version > 1 or state = 'open');

-- The lots a version concerns: those it names, and those of its runs and specimens.
call make_evidence('nonconformity_lot');
alter table nonconformity_lot
  add version_id uuid not null,
  add lot_id uuid not null,
  add unique (lab_id, version_id, lot_id),
  add foreign key (lab_id, version_id) references nonconformity_version,
  add foreign key (lab_id, lot_id) references lot;
create index on nonconformity_lot (lab_id, lot_id);
