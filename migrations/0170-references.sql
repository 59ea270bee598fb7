-- References: specimens of known making, chosen before anything is known of what is compared with them. A revision is frozen
-- when it is added; a change is the next one.
call make_noun('reference');
alter table reference
  add product_id uuid not null,
  add foreign key (lab_id, product_id) references product;

call make_version('reference_revision', 'reference');
alter table reference_revision add content jsonb not null;

call make_evidence('reference_unit');
alter table reference_unit
  add revision_id uuid not null,
  add specimen_id uuid not null,
  add unique (lab_id, revision_id, specimen_id),
  add foreign key (lab_id, revision_id) references reference_revision,
  add foreign key (lab_id, specimen_id) references specimen;
create index on reference_unit (lab_id, specimen_id);
