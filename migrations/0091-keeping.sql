-- How long remnants and records are kept, what the law or a dispute holds beyond that, and how remnants are disposed of.
-- Records are never removed: how long they must be kept is said here, and no more.

-- Until which day, that day included: for the records of a lot and the remnants of its specimens; and for one specimen
-- where it is another day.
call make_version('lot_keeping', 'lot');
alter table lot_keeping
  add records_until date not null,
  add remnants_until date not null,
  add note text not null;
call make_version('specimen_keeping', 'specimen');
alter table specimen_keeping
  add until date not null,
  add note text not null;

-- A legal hold covers lots, with every specimen that is or comes to be of them, and single specimens, until it is lifted.
call make_numbered('legal_hold');
alter table legal_hold
  add reference text not null,
  add reason text not null;
call make_evidence('legal_hold_lot');
alter table legal_hold_lot
  add legal_hold_id uuid not null,
  add lot_id uuid not null,
  add unique (lab_id, legal_hold_id, lot_id),
  add foreign key (lab_id, legal_hold_id) references legal_hold,
  add foreign key (lab_id, lot_id) references lot;
create index on legal_hold_lot (lab_id, lot_id);
call make_evidence('legal_hold_specimen');
alter table legal_hold_specimen
  add legal_hold_id uuid not null,
  add specimen_id uuid not null,
  add unique (lab_id, legal_hold_id, specimen_id),
  add foreign key (lab_id, legal_hold_id) references legal_hold,
  add foreign key (lab_id, specimen_id) references specimen;
create index on legal_hold_specimen (lab_id, specimen_id);
call make_evidence('legal_hold_lifting');
alter table legal_hold_lifting
  add legal_hold_id uuid not null,
  add reason text not null,
  add unique (lab_id, legal_hold_id),
  add foreign key (lab_id, legal_hold_id) references legal_hold;

create function placer_lifts_nothing() returns trigger language plpgsql as $$
begin
  if exists (
    select from legal_hold where lab_id = new.lab_id and id = new.legal_hold_id and person_id = new.person_id
  ) then
    raise exception 'A legal hold is lifted by another person than the one who placed it.' using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger placer_lifts_nothing before insert on legal_hold_lifting
  for each row execute function placer_lifts_nothing();

-- Disposal of remnants: asked for by one person, authorised by another, and recorded when it was done.
call make_numbered('disposal');
alter table disposal add content jsonb not null;
call make_evidence('disposal_specimen');
alter table disposal_specimen
  add disposal_id uuid not null,
  add specimen_id uuid not null,
  add unique (lab_id, disposal_id, specimen_id),
  add foreign key (lab_id, disposal_id) references disposal,
  add foreign key (lab_id, specimen_id) references specimen;
create index on disposal_specimen (lab_id, specimen_id);
call make_version('disposal_version', 'disposal');
alter table disposal_version
  add state text not null check (state in ('asked for', 'authorised', 'refused', 'withdrawn', 'carried out')),
  -- How, where and when it was done.
  add done jsonb,
  add check ((version = 1) = (state = 'asked for')),
  add check ((state = 'carried out') = (done is not null));

create function asker_authorises_nothing() returns trigger language plpgsql as $$
begin
  if new.state in ('authorised', 'refused') and exists (
    select from disposal where lab_id = new.lab_id and id = new.record_id and person_id = new.person_id
  ) then
    raise exception 'A disposal is authorised or refused by another person than the one who asked for it.'
      using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger asker_authorises_nothing before insert on disposal_version
  for each row execute function asker_authorises_nothing();

alter table specimen_state drop constraint specimen_state_state_check;
alter table specimen_state add constraint specimen_state_state_check
  check (state in ('received', 'conditioned', 'ready', 'retained', 'disposed'));

-- Whatever the program does: nothing under a legal hold is disposed of, nothing without a disposal that was authorised
-- and carried out, and what is disposed of stays so.
create function disposal_must_be_possible() returns trigger language plpgsql as $$
begin
  if exists (
    select from specimen_state
    where lab_id = new.lab_id and record_id = new.record_id and state = 'disposed'
  ) then
    raise exception 'This specimen was disposed of.' using errcode = 'BB007';
  end if;
  if new.state <> 'disposed' then
    return new;
  end if;
  if exists (
    select from legal_hold hold
    join specimen on specimen.lab_id = hold.lab_id and specimen.id = new.record_id
    where hold.lab_id = new.lab_id
      and not exists (select from legal_hold_lifting where lab_id = hold.lab_id and legal_hold_id = hold.id)
      and (
        exists (select from legal_hold_lot
          where lab_id = hold.lab_id and legal_hold_id = hold.id and lot_id = specimen.lot_id)
        or exists (select from legal_hold_specimen
          where lab_id = hold.lab_id and legal_hold_id = hold.id and specimen_id = specimen.id)
      )
  ) then
    raise exception 'This specimen is on legal hold.' using errcode = 'BB007';
  end if;
  if not exists (
    select from disposal_specimen named
    join disposal_version authorised on authorised.lab_id = named.lab_id
      and authorised.record_id = named.disposal_id and authorised.state = 'authorised'
    join disposal_version done on done.lab_id = named.lab_id
      and done.record_id = named.disposal_id and done.state = 'carried out'
    where named.lab_id = new.lab_id and named.specimen_id = new.record_id
  ) then
    raise exception 'This specimen is in no disposal that was authorised and carried out.' using errcode = 'BB007';
  end if;
  return new;
end $$;
create trigger disposal_must_be_possible before insert on specimen_state
  for each row execute function disposal_must_be_possible();
