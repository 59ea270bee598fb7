-- How far a lab's ledger had grown, signed with a key that lies outside the database: a note that is kept elsewhere shows
-- later that no entry was cut off or written anew. A checkpoint is no change of the lab's records and has no entry of its
-- own; its signature is what it stands on.

create table ledger_checkpoint (
  lab_id uuid not null,
  id uuid not null,
  at timestamptz(3) not null default now(),
  size integer not null check (size > 0),
  root text not null check (root ~ '^[0-9a-f]{64}$'),
  -- The public half of the key that signed it, as one line.
  key text not null,
  note text not null,
  primary key (lab_id, id),
  unique (lab_id, size, key),
  foreign key (lab_id, size) references ledger_entry (lab_id, sequence)
);
call keep_rows('ledger_checkpoint');
