-- Who may make runs by which revision of a method, and until when (ISO/IEC 17025:2017, 6.2.5 and 6.2.6, from memory). The
-- last row about a person and a revision is in force; every earlier one stays.

call make_evidence('competence');
alter table competence
  add whose_id uuid not null,
  add method_revision_id uuid not null,
  add level text not null check (level in ('trained', 'observed', 'authorised', 'withdrawn')),
  add until date,
  add note text not null,
  -- Nobody vouches for themselves.
  add check (whose_id <> person_id),
  add check ((level = 'authorised') = (until is not null)),
  add foreign key (lab_id, whose_id) references person,
  add foreign key (lab_id, method_revision_id) references method_revision;
create index on competence (lab_id, whose_id, method_revision_id);
