-- Run files that were refused. A destroyed wheel cannot be run again, so its bytes are kept, without run and without
-- number from them, until they are read under a later layout or for the right specimen, or a second person discards them
-- with a reason. The parts of one run stay together, in order.

call make_numbered('unread_file');
alter table unread_file
  -- Of the digests of its parts in order: the same bytes sent again are the same unread file.
  add parts_sha256 text not null,
  add problems jsonb not null,
  add problem_count integer not null,
  add unique (lab_id, parts_sha256);

call make_evidence('unread_part');
alter table unread_part
  add unread_file_id uuid not null,
  add position integer not null check (position > 0),
  add name text not null,
  add raw_id uuid not null,
  add unique (lab_id, unread_file_id, position),
  add foreign key (lab_id, unread_file_id) references unread_file,
  add foreign key (lab_id, raw_id) references raw_bytes;

-- How an unread file ended, which it does once.
call make_evidence('unread_closing');
alter table unread_closing
  add unread_file_id uuid not null,
  add outcome text not null check (outcome in ('read', 'discarded')),
  add run_id uuid,
  add reason text,
  add unique (lab_id, unread_file_id),
  add check ((outcome = 'read') = (run_id is not null)),
  add check (outcome = 'read' or reason is not null),
  add foreign key (lab_id, unread_file_id) references unread_file,
  add foreign key (lab_id, run_id) references run;
