-- Documents that the lab has signed, and the keys it signs with. Private keys lie outside the database.

-- A pair of keys: one signs files (with its certificates, the key's own first), one signs data (Ed25519, RFC 8037).
call make_numbered('signing_key');
alter table signing_key
  add certificates jsonb not null,
  add data_key jsonb not null;

-- A pair is retired when a later one takes its place, and revoked when nothing that it signed is to be trusted.
call make_evidence('signing_key_ending');
alter table signing_key_ending
  add signing_key_id uuid not null,
  add kind text not null check (kind in ('retired', 'revoked')),
  add reason text not null,
  add unique (lab_id, signing_key_id, kind),
  add foreign key (lab_id, signing_key_id) references signing_key;

-- The content of a document that is to be signed, by its digest, before the file is laid out: so that the file can carry
-- the proof that its content stands in the ledger.
call make_evidence('document_content');
alter table document_content
  add kind text not null,
  add document text not null,
  add revision integer not null check (revision > 0),
  add sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  add size integer not null check (size > 0),
  add unique (lab_id, document, revision, sha256);

-- That a document was signed: which content, with which keys, and the draft whose reader authorised it.
call make_evidence('document_sealing');
alter table document_sealing
  add document_id uuid not null,
  add content_id uuid not null,
  add signing_key_id uuid not null,
  add draft_id uuid,
  add unique (lab_id, document_id),
  add unique (lab_id, draft_id),
  add foreign key (lab_id, document_id) references document,
  add foreign key (lab_id, content_id) references document_content,
  add foreign key (lab_id, signing_key_id) references signing_key,
  add foreign key (lab_id, draft_id) references document;

-- Nothing is signed with a pair that has ended.
create function ended_key_signs_nothing() returns trigger language plpgsql as $$
begin
  if exists (
    select from signing_key_ending where lab_id = new.lab_id and signing_key_id = new.signing_key_id
  ) then
    raise exception 'A document is signed with keys in use, and these have ended.' using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger ended_key_signs_nothing before insert on document_sealing
  for each row execute function ended_key_signs_nothing();

alter table job
  drop constraint job_kind_check,
  add constraint job_kind_check check (
    kind in ('lot evaluation', 'lot test report', 'signed document', 'recomputation', 'lot package')
  );
