-- Labs, their people, their ledgers and their counters: what every other table needs.
--
-- The person in whose name a lab is founded is added in the same transaction as the lab, so the two point at each other
-- and their foreign keys are looked at when the transaction commits.

create table person (
  lab_id uuid not null,
  id uuid not null,
  person_id uuid not null,
  at timestamptz(3) not null,
  number integer not null check (number > 0),
  key text not null,
  -- A program acts in its own name (the set-up, a rig's computer), never in a person's.
  kind text not null check (kind in ('person', 'program')),
  primary key (lab_id, id),
  unique (lab_id, number),
  unique (lab_id, key),
  foreign key (lab_id, person_id) references person deferrable initially deferred
);
call keep_rows('person');
create constraint trigger must_be_in_ledger after insert on person
  deferrable initially deferred for each row execute function must_be_in_ledger();

call make_version('person_version', 'person');
alter table person_version add content jsonb not null;

call make_evidence('lab');
alter table lab
  add key text not null unique,
  add unique (id),
  add check (id = lab_id);
alter table person add foreign key (lab_id) references lab (id) deferrable initially deferred;

call make_version('lab_version', 'lab');
alter table lab_version add content jsonb not null;

-- One entry for each transaction, chained by its hash to the one before. The text is what is hashed; the other columns
-- say the same again, for queries, and the trigger sees to it that they do.
create table ledger_entry (
  lab_id uuid not null references lab (id) deferrable initially deferred,
  id uuid not null,
  sequence integer not null,
  previous text not null,
  at timestamptz(3) not null,
  person_id uuid not null,
  action text not null,
  reason text,
  text text not null,
  hash text not null,
  primary key (lab_id, id),
  unique (lab_id, sequence),
  foreign key (lab_id, person_id) references person deferrable initially deferred
);
call keep_rows('ledger_entry');

create function entry_must_follow() returns trigger language plpgsql as $$
declare
  said jsonb := split_part(new.text, E'\n', 2)::jsonb;
  before ledger_entry;
  written_by xid;
begin
  select * into before from ledger_entry where lab_id = new.lab_id and sequence = new.sequence - 1;
  select xmin into written_by from ledger_entry where lab_id = new.lab_id and sequence = new.sequence - 1;
  if new.previous <> coalesce(before.hash, repeat('0', 64)) or (before.hash is null) <> (new.sequence = 1) then
    raise exception 'Ledger entry % does not follow the one before it.', new.sequence using errcode = 'BB004';
  end if;
  if written_by = pg_current_xact_id()::xid then
    raise exception 'A transaction writes one ledger entry for a lab, not two.' using errcode = 'BB004';
  end if;
  if new.hash <> encode(sha256('\x00'::bytea || convert_to(new.text, 'UTF8')), 'hex') then
    raise exception 'The hash of ledger entry % is not that of its text.', new.sequence using errcode = 'BB004';
  end if;
  if (said ->> 'lab', said ->> 'id', said ->> 'sequence', said ->> 'previous', said ->> 'by', said ->> 'action', said ->> 'reason')
    is distinct from
    (new.lab_id::text, new.id::text, new.sequence::text, new.previous, new.person_id::text, new.action, new.reason)
    or (said ->> 'at')::timestamptz <> new.at
  then
    raise exception 'The columns of ledger entry % do not say what its text says.', new.sequence using errcode = 'BB004';
  end if;
  return new;
end $$;
create trigger entry_must_follow before insert on ledger_entry for each row execute function entry_must_follow();

-- The last entry of each lab. Whoever writes the next one locks this row until the transaction ends, which is what
-- keeps the sequence without gap or fork under concurrency.
create table ledger_head (
  lab_id uuid not null references lab (id) deferrable initially deferred,
  id uuid not null check (id = lab_id),
  sequence integer not null,
  hash text not null,
  primary key (lab_id, id)
);
grant select, insert, update (sequence, hash) on ledger_head to breakbook_service;

-- The last short number given, for each kind of thing. A transaction that is rolled back gives its number back, so
-- that a refusal leaves no hole; one that was kept is never given again.
create table short_number (
  lab_id uuid not null references lab (id) deferrable initially deferred,
  id text not null,
  last integer not null,
  primary key (lab_id, id)
);
grant select, insert, update (last) on short_number to breakbook_service;

create function number_must_follow() returns trigger language plpgsql as $$
begin
  if new.last <> old.last + 1 then
    raise exception 'Short numbers are given one by one: % does not follow %.', new.last, old.last using errcode = 'BB003';
  end if;
  return new;
end $$;
create trigger number_must_follow before update on short_number for each row execute function number_must_follow();
