-- Run sheets, specimen records and label sheets: what a document that rests on no evaluation is of.
call make_evidence('document_subject');
alter table document_subject
  add document_id uuid not null,
  add lot_id uuid not null,
  add specimen_id uuid,
  add run_id uuid,
  add unique (lab_id, document_id),
  add check (num_nonnulls(specimen_id, run_id) <= 1),
  add foreign key (lab_id, document_id) references document,
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, specimen_id) references specimen,
  add foreign key (lab_id, run_id) references run;
create index on document_subject (lab_id, lot_id);
create index on document_subject (lab_id, specimen_id);
create index on document_subject (lab_id, run_id);

alter table job
  drop constraint job_kind_check,
  add constraint job_kind_check check (
    kind in (
      'lot evaluation', 'lot test report', 'signed document', 'recomputation', 'lot package',
      'run sheet', 'specimen record', 'label sheet'
    )
  );
