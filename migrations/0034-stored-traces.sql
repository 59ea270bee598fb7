-- The channels of a run as they are judged, in blocks (docs/formats.md, "Stored traces"), so that any zoom of a long record
-- is drawn without reading its files again.
--
-- Derived, and no evidence: every row can be worked out from the raw files and the records, and is, where it is missing or
-- was made from other records than those in force. So the service may remove them, no ledger entry names them, and a
-- back-up needs none of them.

create table stored_trace (
  lab_id uuid not null,
  run_id uuid not null,
  position integer not null check (position > 0),
  -- Of everything it was worked out from: software, files, run, method, layout, rig and calibrations.
  source_sha256 text not null check (source_sha256 ~ '^[0-9a-f]{64}$'),
  channel text not null,
  unit text not null,
  reference text check (reference in ('gauge', 'absolute')),
  passage integer,
  samples integer not null check (samples >= 0),
  -- Of its times: channels of one record share it.
  clock_sha256 text not null check (clock_sha256 ~ '^[0-9a-f]{64}$'),
  primary key (lab_id, run_id, position),
  foreign key (lab_id, run_id) references run
);

create table trace_block (
  lab_id uuid not null,
  run_id uuid not null,
  position integer not null,
  block integer not null check (block >= 0),
  first integer not null check (first >= 0),
  samples integer not null check (samples > 0),
  from_time double precision not null,
  to_time double precision not null,
  time_bytes bytea not null,
  value_bytes bytea not null,
  fine bytea not null,
  coarse bytea not null,
  primary key (lab_id, run_id, position, block),
  foreign key (lab_id, run_id, position) references stored_trace on delete cascade
);
-- Packed already.
alter table trace_block
  alter time_bytes set storage external,
  alter value_bytes set storage external;

grant select, insert, delete on stored_trace, trace_block to breakbook_service;
