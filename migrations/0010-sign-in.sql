-- How people sign in. What is kept here is no evidence: a passphrase is replaced, a session ends, a count of wrong tries
-- goes back to nothing, and none of it may be readable in the ledger. That somebody got or lost a passphrase is evidence,
-- and stands in credential_change, without anything of the passphrase.

-- A person's passphrase as argon2id leaves it; the id is the person's. Without a row the person cannot sign in.
create table credential (
  lab_id uuid not null,
  id uuid not null,
  hash text not null check (hash like '$argon2id$%'),
  -- Given by somebody else, so it opens nothing but the way to an own one.
  temporary boolean not null,
  primary key (lab_id, id),
  foreign key (lab_id, id) references person
);
grant select, insert, update, delete on credential to breakbook_service;

-- A browser somebody signed in with. The cookie's random number is kept as its SHA-256 only.
create table session (
  lab_id uuid not null,
  id uuid not null,
  person_id uuid not null,
  sha256 text not null unique check (sha256 ~ '^[0-9a-f]{64}$'),
  began_at timestamptz(3) not null,
  seen_at timestamptz(3) not null,
  -- When the passphrase was last asked for again; acts that need it fresh look here.
  confirmed_at timestamptz(3),
  primary key (lab_id, id),
  foreign key (lab_id, person_id) references credential on delete cascade
);
create index on session (lab_id, person_id);
grant select, insert, update, delete on session to breakbook_service;

-- Wrong passphrases in a row, by the name that was typed, whether anybody is called so or not.
create table wrong_try (
  lab_id uuid not null references lab (id),
  id text not null,
  tries integer not null check (tries > 0),
  next_at timestamptz(3) not null,
  primary key (lab_id, id)
);
grant select, insert, update, delete on wrong_try to breakbook_service;

call make_evidence('credential_change');
alter table credential_change
  add whose_id uuid not null,
  add cause text not null check (cause in ('first start', 'own choice', 'given by administrator', 'reset at the machine', 'closed')),
  add foreign key (lab_id, whose_id) references person;
create index on credential_change (lab_id, whose_id);
