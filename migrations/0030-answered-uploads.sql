-- The answers to uploads that were taken, each written in the transaction of what it answers. Whoever did not hear the
-- answer sends the upload again under its key and hears it now; there is no moment in which the run is there and its
-- answer is not. A refused upload is not here: sent again, it is read again.

create table answered_upload (
  lab_id uuid not null,
  person_id uuid not null,
  -- As the sender chose it.
  key text not null,
  -- Of the description of the run and of its files, so that another upload under the same key is noticed.
  body_sha256 text not null check (body_sha256 ~ '^[0-9a-f]{64}$'),
  answer jsonb not null,
  at timestamptz(3) not null default now(),
  primary key (lab_id, person_id, key),
  foreign key (lab_id, person_id) references person
);
call keep_rows('answered_upload');
