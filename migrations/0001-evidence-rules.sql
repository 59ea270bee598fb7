-- The rules every table follows, written once, and the procedures that make a table follow them.
--
-- Nothing the lab records is ever changed or removed. A thing (a lot, a specimen, a run) is a row that says only that
-- it is there; what is said about it are versions, and a correction is a further version with its reason. The database
-- holds to this itself, twice over: the role of the service is granted to read and to add, and triggers refuse the rest
-- to every role. A row that is named by no ledger entry of its own transaction is refused when that commits.
--
-- Every table has lab_id and the primary key (lab_id, id), and every foreign key carries lab_id, so that no row can
-- ever point into another lab. Ids are UUIDs of version 7, made by the program: PostgreSQL makes them from 18 on only.

create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception 'Rows of "%" are evidence: they are neither changed nor removed. A correction is a new version.', tg_table_name
    using errcode = 'BB001';
end $$;

-- xmin is the transaction that wrote a row. The entry looked for is the lab's last, and it is written outside any
-- savepoint, so it carries the number of the transaction itself.
create function must_be_in_ledger() returns trigger language plpgsql as $$
begin
  if not exists (
    select from ledger_head head
    join ledger_entry entry on entry.lab_id = head.lab_id and entry.sequence = head.sequence
    where head.lab_id = new.lab_id
      and entry.xmin = pg_current_xact_id()::xid
      and position(new.id::text in entry.text) > 0
  ) then
    raise exception 'A row of "%" was added without a ledger entry that names it, so nothing was kept.', tg_table_name
      using errcode = 'BB002';
  end if;
  return null;
end $$;

create function version_must_follow() returns trigger language plpgsql as $$
declare
  follows boolean;
begin
  if new.version > 1 then
    execute format('select exists (select from %I where lab_id = $1 and record_id = $2 and version = $3)', tg_table_name)
      into follows using new.lab_id, new.record_id, new.version - 1;
    if not follows then
      raise exception 'Version % of a row of "%" follows no version %.', new.version, tg_table_name, new.version - 1
        using errcode = 'BB003';
    end if;
  end if;
  return new;
end $$;

-- Refuses change and removal of a table's rows to everybody, and lets the service read and add.
create procedure keep_rows(kept text) language plpgsql as $$
begin
  execute format('create trigger refuse_change before update or delete or truncate on %I
    for each statement execute function refuse_change()', kept);
  execute format('grant select, insert on %I to breakbook_service', kept);
end $$;

-- A table of evidence: who added a row and when, and a ledger entry for each.
create procedure make_evidence(made text) language plpgsql as $$
begin
  execute format('create table %I (
    lab_id uuid not null,
    id uuid not null,
    person_id uuid not null,
    at timestamptz(3) not null,
    primary key (lab_id, id),
    foreign key (lab_id, person_id) references person deferrable initially deferred
  )', made);
  execute format('create constraint trigger must_be_in_ledger after insert on %I
    deferrable initially deferred for each row execute function must_be_in_ledger()', made);
  call keep_rows(made);
end $$;

-- A thing people speak of by a short number, which is never given twice.
create procedure make_numbered(made text) language plpgsql as $$
begin
  call make_evidence(made);
  execute format('alter table %I add number integer not null check (number > 0), add unique (lab_id, number)', made);
end $$;

-- A thing with a name of the lab's own as well: a rig, a method, a specimen.
create procedure make_noun(made text) language plpgsql as $$
begin
  call make_numbered(made);
  execute format('alter table %I add key text not null, add unique (lab_id, key)', made);
end $$;

-- What is said about a record, version by version. Where the record is a row of its own, "anchor" names its table.
create procedure make_version(made text, anchor text default null) language plpgsql as $$
begin
  call make_evidence(made);
  execute format('alter table %I
    add record_id uuid not null,
    add version integer not null check (version > 0),
    add reason text check (version = 1 or reason is not null),
    add unique (lab_id, record_id, version)', made);
  execute format('create trigger version_must_follow before insert on %I
    for each row execute function version_must_follow()', made);
  if anchor is not null then
    execute format('alter table %I add foreign key (lab_id, record_id) references %I', made, anchor);
  end if;
end $$;

grant usage on schema public to breakbook_service;
