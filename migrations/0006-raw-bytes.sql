-- Bytes as they came, and never otherwise: run files, unread files, issued documents. They lie in rows of 1 MiB, so that
-- neither writing nor reading needs a large file in memory, and in the transaction of what they belong to, so that
-- neither is there without the other.
--
-- The digests of the whole and of each chunk stand in a row of evidence, and so in the ledger. The chunks themselves
-- need no entry each: a changed, missing, further or exchanged chunk does not fit those digests. A chunk is no thing of
-- its own, so it has no id: it is the whole's piece at a position.

call make_evidence('raw_bytes');
alter table raw_bytes
  add sha256 text not null check (sha256 ~ '^[0-9a-f]{64}$'),
  add size bigint not null check (size >= 0),
  add chunk_sha256 text[] not null,
  -- The same bytes are kept once.
  add unique (lab_id, sha256);

create table raw_chunk (
  lab_id uuid not null,
  raw_id uuid not null,
  position integer not null check (position >= 0),
  bytes bytea not null,
  primary key (lab_id, raw_id, position),
  foreign key (lab_id, raw_id) references raw_bytes
);
-- Not compressed: a part of a chunk is then read without the rest of it, and storing takes a third of the time.
alter table raw_chunk alter bytes set storage external;
call keep_rows('raw_chunk');

create function chunk_must_come_with_its_whole() returns trigger language plpgsql as $$
begin
  if not exists (
    select from raw_bytes
    where lab_id = new.lab_id and id = new.raw_id and xmin = pg_current_xact_id()::xid
  ) then
    raise exception 'Nothing is added to bytes that were kept before.' using errcode = 'BB001';
  end if;
  return new;
end $$;
create trigger chunk_must_come_with_its_whole before insert on raw_chunk
  for each row execute function chunk_must_come_with_its_whole();
