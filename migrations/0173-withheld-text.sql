-- Text that only some may read: notes of covert features, and which code stands for which item while a comparison is blind.
-- Evidence, ledger and packages hold a salted digest of it and nothing else, not even what it is about. The text lies in a
-- table that no row of evidence leads to, and that no package, list or search reads.
create table withheld_text (
  lab_id uuid not null references lab (id),
  id uuid not null,
  salt text not null check (salt ~ '^[0-9a-f]{64}$'),
  content jsonb not null,
  primary key (lab_id, id)
);
call keep_rows('withheld_text');

call make_evidence('protected_note');
alter table protected_note
  add salted_sha256 text not null check (salted_sha256 ~ '^[0-9a-f]{64}$');

call make_evidence('code_list');
alter table code_list
  add comparison_id uuid not null,
  add salted_sha256 text not null check (salted_sha256 ~ '^[0-9a-f]{64}$'),
  add foreign key (lab_id, comparison_id) references comparison;
create index on code_list (lab_id, comparison_id);
