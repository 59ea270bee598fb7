-- Concessions and deviation permits: asked for by one person, granted or refused by another, bounded and ending.

call make_numbered('concession');
alter table concession
  add lot_id uuid not null,
  -- Not there for a permit to depart from something else than a limit.
  add limit_revision_id uuid,
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, limit_revision_id) references limit_revision;
create index on concession (lab_id, lot_id);

call make_version('concession_version', 'concession');
alter table concession_version
  add state text not null check (state in ('requested', 'granted', 'refused', 'withdrawn')),
  add content jsonb not null,
  add check ((version = 1) = (state = 'requested'));

-- Who asks grants nothing, whatever the program does.
create function requester_grants_nothing() returns trigger language plpgsql as $$
begin
  if new.state in ('granted', 'refused') and exists (
    select from concession where lab_id = new.lab_id and id = new.record_id and person_id = new.person_id
  ) then
    raise exception 'A concession is granted or refused by another person than the one who asked for it.'
      using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger requester_grants_nothing before insert on concession_version
  for each row execute function requester_grants_nothing();
