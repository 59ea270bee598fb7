-- Signing in by the word of a provider that the lab trusts (OpenID Connect).

-- Who in the lab the provider means by issuer and subject, version by version; both null where the link was ended. Only
-- an administrator says so: a name or an address that the provider hands over proves nothing of who somebody is here.
call make_version('outside_identity', 'person');
alter table outside_identity
  add issuer text,
  add subject text,
  add check ((issuer is null) = (subject is null));
create index on outside_identity (lab_id, issuer, subject);

-- A sign-in under way at the provider, for ten minutes at most and for one return. No evidence: nobody has come in yet.
create table outside_sign_in (
  lab_id uuid not null references lab (id),
  id uuid not null,
  -- Of the cookie by which the browser that began is known again.
  sha256 text not null unique check (sha256 ~ '^[0-9a-f]{64}$'),
  state text not null,
  nonce text not null,
  verifier text not null,
  began_at timestamptz(3) not null,
  primary key (lab_id, id)
);
grant select, insert, delete on outside_sign_in to breakbook_service;
