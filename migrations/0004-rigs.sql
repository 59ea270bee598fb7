-- Rigs, the sensors that move between them, and the calibrations that are the only home of corrections.

call make_noun('rig');
call make_version('rig_version', 'rig');
alter table rig_version add content jsonb not null;

call make_noun('sensor');
call make_version('sensor_version', 'sensor');
alter table sensor_version add content jsonb not null;

-- A sensor at its place: the channel it feeds from a day on. Its end is a further version.
call make_version('sensor_placement');
alter table sensor_placement
  add rig_id uuid not null,
  add sensor_id uuid not null,
  add content jsonb not null,
  add foreign key (lab_id, rig_id) references rig,
  add foreign key (lab_id, sensor_id) references sensor;
create index on sensor_placement (lab_id, rig_id);
create index on sensor_placement (lab_id, sensor_id);

call make_noun('calibration');
alter table calibration
  add sensor_id uuid not null,
  add foreign key (lab_id, sensor_id) references sensor;
create index on calibration (lab_id, sensor_id);
call make_version('calibration_version', 'calibration');
alter table calibration_version add content jsonb not null;

-- How the files of one rig are read.
call make_noun('layout');
alter table layout
  add rig_id uuid not null,
  add foreign key (lab_id, rig_id) references rig;
call make_version('layout_revision', 'layout');
alter table layout_revision add content jsonb not null;
