-- What somebody has beside the passphrase they know: a generator of six-digit codes, passkeys, and codes written down
-- for the day both are lost. As with passphrases none of it is evidence and nothing of it may be readable in the ledger;
-- that somebody got, used or lost one is, and stands in credential_change.

-- The secret of a code generator; the id is the person's. Sealed with a key outside the database, so that a copy of the
-- database signs nothing. "last_step" is the half minute of the last code taken: none is taken twice.
create table code_generator (
  lab_id uuid not null,
  id uuid not null,
  sealed text not null,
  in_use boolean not null,
  last_step bigint not null default 0,
  primary key (lab_id, id),
  foreign key (lab_id, id) references credential on delete cascade
);
grant select, insert, update, delete on code_generator to breakbook_service;

-- Drawn at random with 80 bits each, so a plain digest tells nothing of them. A used one is removed.
create table recovery_code (
  lab_id uuid not null,
  id uuid not null,
  person_id uuid not null,
  sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  primary key (lab_id, id),
  unique (lab_id, person_id, sha256),
  foreign key (lab_id, person_id) references credential on delete cascade
);
grant select, insert, delete on recovery_code to breakbook_service;

-- The public half of a key that a person's device keeps (Web Authentication); ids and keys in base64url.
create table passkey (
  lab_id uuid not null,
  id uuid not null,
  person_id uuid not null,
  name text not null,
  credential text not null unique,
  public_key text not null,
  transports jsonb not null,
  uses bigint not null,
  added_at timestamptz(3) not null,
  used_at timestamptz(3),
  primary key (lab_id, id),
  foreign key (lab_id, person_id) references credential on delete cascade
);
create index on passkey (lab_id, person_id);
grant select, insert, update, delete on passkey to breakbook_service;

alter table session
  -- When the second factor was last given; null as long as it was not.
  add second_at timestamptz(3),
  -- What the browser says it is, for its owner to tell one session from another.
  add device text not null default '',
  -- What a passkey is asked to sign, and since when.
  add challenge text,
  add challenge_at timestamptz(3);

alter table credential_change drop constraint credential_change_cause_check;
alter table credential_change add constraint credential_change_cause_check check (cause in (
  'first start', 'own choice', 'given by administrator', 'reset at the machine', 'closed',
  'code generator added', 'code generator removed', 'passkey added', 'passkey removed',
  'recovery codes drawn', 'recovery code used', 'second factors taken away'
));
