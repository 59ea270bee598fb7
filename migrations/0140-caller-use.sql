-- What each caller, a person or the program of a rig, has had kept or made within the hour that began at its first use.
create table caller_use (
  lab_id uuid not null references lab (id),
  id uuid not null,
  kind text not null check (kind in ('bytes', 'exports', 'runs')),
  used bigint not null check (used > 0),
  since timestamptz(3) not null,
  primary key (lab_id, id, kind),
  foreign key (lab_id, id) references person
);
grant select, insert, update on caller_use to breakbook_service;
