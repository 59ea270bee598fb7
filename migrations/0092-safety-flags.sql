-- Product-safety flags: a person says that something seen in the lab may endanger riders of what was shipped. The program
-- decides nothing of it; it keeps who raised it and when, what was done at once, and who closed it with which decision.

call make_numbered('safety_flag');
call make_version('safety_flag_version', 'safety_flag');
alter table safety_flag_version
  add state text not null check (state in ('open', 'closed')),
  add content jsonb not null,
  add check (version > 1 or state = 'open');

-- The lots a version concerns: those it names, and those of its runs and nonconformities.
call make_evidence('safety_flag_lot');
alter table safety_flag_lot
  add version_id uuid not null,
  add lot_id uuid not null,
  add unique (lab_id, version_id, lot_id),
  add foreign key (lab_id, version_id) references safety_flag_version,
  add foreign key (lab_id, lot_id) references lot;
create index on safety_flag_lot (lab_id, lot_id);

-- A package of a lot that was made as evidence for a flag.
call make_evidence('safety_flag_package');
alter table safety_flag_package
  add safety_flag_id uuid not null,
  add lot_package_id uuid not null,
  add unique (lab_id, lot_package_id),
  add foreign key (lab_id, safety_flag_id) references safety_flag,
  add foreign key (lab_id, lot_package_id) references lot_package;

create function writer_closes_no_flag() returns trigger language plpgsql as $$
begin
  if new.state = 'closed' and exists (
    select from safety_flag_version
    where lab_id = new.lab_id and record_id = new.record_id and person_id = new.person_id
  ) then
    raise exception 'A safety flag is closed by another person than those who wrote in it.' using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger writer_closes_no_flag before insert on safety_flag_version
  for each row execute function writer_closes_no_flag();
