-- Certificates of test: issued over a disposition, and what became of each since.
call make_numbered('certificate');
alter table certificate
  add lot_id uuid not null,
  add disposition_id uuid not null,
  add document_id uuid not null,
  -- Whoever has the paper can ask for its status by this, and nobody can guess another's.
  add token text not null check (token ~ '^[A-Za-z0-9_-]{22}$'),
  add unique (token),
  add unique (lab_id, document_id),
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, disposition_id) references disposition,
  add foreign key (lab_id, document_id) references document;
create index on certificate (lab_id, lot_id);

call make_version('certificate_version', 'certificate');
alter table certificate_version
  add state text not null check (state in ('in force', 'on hold', 'superseded', 'withdrawn')),
  add replaced_by_id uuid,
  add check ((state = 'superseded') = (replaced_by_id is not null)),
  add foreign key (lab_id, replaced_by_id) references certificate;

-- What is superseded or withdrawn stays so.
create function certificate_has_ended() returns trigger language plpgsql as $$
begin
  if exists (
    select from certificate_version
    where lab_id = new.lab_id and record_id = new.record_id and state in ('superseded', 'withdrawn')
  ) then
    raise exception 'A certificate that is superseded or withdrawn stays so.' using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger certificate_has_ended before insert on certificate_version
  for each row execute function certificate_has_ended();

-- Who was sent it, and who was told what became of it.
call make_evidence('certificate_sending');
alter table certificate_sending
  add certificate_id uuid not null,
  add state text not null,
  add recipient text not null,
  add way text not null,
  add foreign key (lab_id, certificate_id) references certificate;
create index on certificate_sending (lab_id, certificate_id);
