-- Changes of a lab add to one ledger and take numbers one after another, so what happens between taking a turn and the
-- commit decides how many a lab can do. It is one call each here, instead of questions and answers between.
--
-- Turns are taken by advisory locks, which are given in the order in which they were asked for. Locks on rows are not:
-- each update makes another row of it, and of many who wait for the old one some wait several times as long as others.

-- The last entry of a lab, kept from every other change of it until the transaction ends.
create function hold_ledger(lab uuid) returns ledger_head language plpgsql as $$
declare
  head ledger_head;
begin
  perform pg_advisory_xact_lock(hashtextextended(lab || ' ledger', 0));
  select * into head from ledger_head where lab_id = lab for update;
  if not found then
    insert into ledger_head (lab_id, id, sequence, hash) values (lab, lab, 0, repeat('0', 64)) returning * into head;
  end if;
  return head;
end $$;

-- Writes the entry a change ends with. Its text comes in three pieces, between which the hash of the entry before and
-- the number of this one are put, for they are known only once the ledger is held.
create function append_entry(
  lab uuid, id uuid, at timestamptz, person uuid, action text, reason text,
  upto_previous text, upto_sequence text, upto_end text
) returns void language plpgsql as $$
declare
  head ledger_head := hold_ledger(lab);
  next integer := head.sequence + 1;
  entry text := upto_previous || head.hash || upto_sequence || next || upto_end;
  entry_hash text := encode(sha256('\x00'::bytea || convert_to(entry, 'UTF8')), 'hex');
begin
  insert into ledger_entry (lab_id, id, sequence, previous, at, person_id, action, reason, text, hash)
    values (lab, id, next, head.hash, at, person, action, reason, entry, entry_hash);
  update ledger_head set sequence = next, hash = entry_hash where lab_id = lab;
end $$;

-- The next short number of a kind; the next change that asks for one waits until this one ends.
create function next_number(lab uuid, kind text) returns integer language plpgsql as $$
declare
  given integer;
begin
  perform pg_advisory_xact_lock(hashtextextended(lab || ' short_number ' || kind, 0));
  insert into short_number (lab_id, id, last) values (lab, kind, 1)
    on conflict (lab_id, id) do update set last = short_number.last + 1
    returning last into given;
  return given;
end $$;

-- The two checks below look at the last entry, and ask for it by the order of the index on numbers. Asked for by its
-- number alone, a connection that began in a small ledger goes on with a plan that reads all entries of the lab.

-- xmin is the transaction that wrote a row. The entry looked for is the lab's last, and it is written outside any
-- savepoint, so it carries the number of the transaction itself.
create or replace function must_be_in_ledger() returns trigger language plpgsql as $$
declare
  written_by xid;
  named boolean;
begin
  select xmin, position(new.id::text in text) > 0 into written_by, named
    from ledger_entry where lab_id = new.lab_id order by sequence desc limit 1;
  if written_by is distinct from pg_current_xact_id()::xid or not named then
    raise exception 'A row of "%" was added without a ledger entry that names it, so nothing was kept.', tg_table_name
      using errcode = 'BB002';
  end if;
  return null;
end $$;

create or replace function entry_must_follow() returns trigger language plpgsql as $$
declare
  said jsonb := split_part(new.text, E'\n', 2)::jsonb;
  before record;
begin
  select sequence, hash, xmin as written_by into before
    from ledger_entry where lab_id = new.lab_id and sequence < new.sequence order by sequence desc limit 1;
  if new.sequence <> coalesce(before.sequence, 0) + 1 or new.previous <> coalesce(before.hash, repeat('0', 64)) then
    raise exception 'Ledger entry % does not follow the one before it.', new.sequence using errcode = 'BB004';
  end if;
  if before.written_by = pg_current_xact_id()::xid then
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
