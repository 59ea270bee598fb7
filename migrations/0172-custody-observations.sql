-- Custody: who had a specimen from whom, when, where, under which seal; added to and never changed.
call make_evidence('custody_event');
alter table custody_event
  add specimen_id uuid not null,
  add content jsonb not null,
  add foreign key (lab_id, specimen_id) references specimen;
create index on custody_event (lab_id, specimen_id);

-- What was seen of a feature on a specimen, for a comparison. A correction is a further version.
call make_numbered('observation');
alter table observation
  add comparison_id uuid not null,
  add specimen_id uuid not null,
  add feature text not null,
  add unique (lab_id, comparison_id, specimen_id, feature),
  add foreign key (lab_id, comparison_id) references comparison,
  add foreign key (lab_id, specimen_id) references specimen;
create index on observation (lab_id, specimen_id);
call make_version('observation_version', 'observation');
alter table observation_version add content jsonb not null;
