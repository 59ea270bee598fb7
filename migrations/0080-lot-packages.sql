-- A lot handed out with everything it rests on, as one zip: who took it away, of which state of the ledger, and by which
-- digest what was handed out can be known again.

call make_numbered('lot_package');
alter table lot_package
  add lot_id uuid not null,
  -- How many entries the ledger of its checkpoint has.
  add ledger_size integer not null check (ledger_size > 0),
  -- Of datapackage.json, which the seal names, and of the zip as it was handed out.
  add descriptor_sha256 text not null check (descriptor_sha256 ~ '^[0-9a-f]{64}$'),
  add sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  add size bigint not null check (size > 0),
  add software text not null,
  add foreign key (lab_id, lot_id) references lot;
create index on lot_package (lab_id, lot_id);

-- The bytes of packages made lately. Derived, and no evidence: everything in them is kept elsewhere, and they are made
-- again when somebody asks. So the service removes them after a day, and a back-up needs none of them.
create table lot_package_block (
  lab_id uuid not null,
  package_id uuid not null,
  position integer not null check (position >= 0),
  at timestamptz(3) not null default now(),
  bytes bytea not null,
  primary key (lab_id, package_id, position)
);
alter table lot_package_block alter bytes set storage external;
grant select, insert, delete on lot_package_block to breakbook_service;

alter table job drop constraint job_kind_check;
alter table job add constraint job_kind_check
  check (kind in ('lot evaluation', 'lot test report', 'recomputation', 'lot package'));

alter table job_end
  add lot_package_id uuid,
  add foreign key (lab_id, lot_package_id) references lot_package;
do $$
declare
  old text;
begin
  -- Its name is one that the database gave.
  select conname into strict old from pg_constraint
    where conrelid = 'job_end'::regclass and contype = 'c' and pg_get_constraintdef(oid) like '%num_nonnulls%';
  execute format('alter table job_end drop constraint %I', old);
end $$;
alter table job_end add constraint job_end_names_its_outcome
  check ((outcome = 'done') = (num_nonnulls(evaluation_id, document_id, recomputation_id, lot_package_id) = 1));
