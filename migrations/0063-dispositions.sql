-- What was decided about a lot, signed. A lot has one disposition; a later decision is a further one that names the one
-- it replaces, which can be replaced once. So of any number who decide at once, one does.

call make_numbered('disposition');
alter table disposition
  add lot_id uuid not null,
  add evaluation_id uuid not null,
  add outcome text not null check (outcome in ('accepted', 'accepted on concession', 'not accepted')),
  add deciders integer not null check (deciders in (1, 2)),
  add check (outcome <> 'accepted on concession' or deciders = 2),
  add reason text not null,
  add replaces_id uuid,
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, evaluation_id) references evaluation,
  add foreign key (lab_id, replaces_id) references disposition;
create unique index disposed_once on disposition (lab_id, lot_id) where replaces_id is null;
create unique index disposition_replaced_once on disposition (lab_id, replaces_id);

-- Who signed, as the name was printed, in what meaning, and exactly what was shown with its digest.
call make_evidence('disposition_signature');
alter table disposition_signature
  add disposition_id uuid not null,
  add position integer not null check (position in (1, 2)),
  add name text not null,
  add role text not null,
  add meaning text not null,
  add shown text not null check (shown ~ '^[0-9a-f]{64}$'),
  add content jsonb not null,
  add unique (lab_id, disposition_id, position),
  add unique (lab_id, disposition_id, person_id),
  add foreign key (lab_id, disposition_id) references disposition;

create function disposition_must_follow() returns trigger language plpgsql as $$
begin
  if new.replaces_id is not null and not exists (
    select from disposition where lab_id = new.lab_id and id = new.replaces_id and lot_id = new.lot_id
  ) then
    raise exception 'A disposition replaces one of the same lot.' using errcode = 'BB008';
  end if;
  return new;
end $$;
create trigger disposition_must_follow before insert on disposition
  for each row execute function disposition_must_follow();

create function signature_must_be_wanted() returns trigger language plpgsql as $$
begin
  if new.position > (select deciders from disposition where lab_id = new.lab_id and id = new.disposition_id) then
    raise exception 'This disposition needs no further signature.' using errcode = 'BB008';
  end if;
  return new;
end $$;
create trigger signature_must_be_wanted before insert on disposition_signature
  for each row execute function signature_must_be_wanted();
