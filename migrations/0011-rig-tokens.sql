-- By a token a rig's computer sends runs without a person being signed in. It is bound to one rig, ends within a year,
-- and is kept as the SHA-256 of 256 random bits, which tells nothing about them.

call make_numbered('rig_token');
alter table rig_token
  add rig_id uuid not null,
  -- The program in whose name runs sent by this token are recorded.
  add program_id uuid not null,
  add note text not null,
  add sha256 text not null unique check (sha256 ~ '^[0-9a-f]{64}$'),
  add expires_at timestamptz(3) not null,
  add check (expires_at > at and expires_at <= at + interval '366 days'),
  add foreign key (lab_id, rig_id) references rig,
  add foreign key (lab_id, program_id) references person;
create index on rig_token (lab_id, rig_id);

call make_evidence('rig_token_revocation');
alter table rig_token_revocation
  add rig_token_id uuid not null,
  add reason text not null,
  add unique (lab_id, rig_token_id),
  add foreign key (lab_id, rig_token_id) references rig_token;
