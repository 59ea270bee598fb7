-- Photos of a lot, a specimen, a run or a rig: their bytes as they came, and who took them, when, with what. What is
-- said about one can be corrected; its bytes and what it belongs to cannot.

call make_numbered('attachment');
alter table attachment
  add lot_id uuid,
  add specimen_id uuid,
  add run_id uuid,
  add rig_id uuid,
  add media_type text not null check (media_type in ('image/png', 'image/jpeg')),
  add width integer not null check (width > 0),
  add height integer not null check (height > 0),
  add raw_id uuid not null,
  add check (num_nonnulls(lot_id, specimen_id, run_id, rig_id) = 1),
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, specimen_id) references specimen,
  add foreign key (lab_id, run_id) references run,
  add foreign key (lab_id, rig_id) references rig,
  add foreign key (lab_id, raw_id) references raw_bytes,
  -- The same photo belongs to the same thing once.
  add unique nulls not distinct (lab_id, raw_id, lot_id, specimen_id, run_id, rig_id);
create index on attachment (lab_id, lot_id) where lot_id is not null;
create index on attachment (lab_id, specimen_id) where specimen_id is not null;
create index on attachment (lab_id, run_id) where run_id is not null;
create index on attachment (lab_id, rig_id) where rig_id is not null;

call make_version('attachment_version', 'attachment');
alter table attachment_version
  add taken_by_id uuid not null,
  add content jsonb not null,
  add foreign key (lab_id, taken_by_id) references person;
