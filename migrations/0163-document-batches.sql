-- All run sheets, specimen records or labels of a lot, asked for at once. What is to be made is fixed as the batch is begun;
-- each place of it has one document, whoever goes on with it and however often it was broken off.
call make_numbered('document_batch');
alter table document_batch
  add lot_id uuid not null,
  add content jsonb not null,
  add foreign key (lab_id, lot_id) references lot;
create index on document_batch (lab_id, lot_id);

call make_evidence('batch_document');
alter table batch_document
  add batch_id uuid not null,
  add position integer not null check (position > 0),
  add document_id uuid not null,
  add unique (lab_id, batch_id, position),
  add unique (lab_id, document_id),
  add foreign key (lab_id, batch_id) references document_batch,
  add foreign key (lab_id, document_id) references document;

alter table job
  drop constraint job_kind_check,
  add constraint job_kind_check check (
    kind in (
      'lot evaluation', 'lot test report', 'signed document', 'recomputation', 'lot package',
      'run sheet', 'specimen record', 'label sheet', 'document batch'
    )
  );

alter table job_end
  add document_batch_id uuid,
  add foreign key (lab_id, document_batch_id) references document_batch,
  drop constraint job_end_names_its_outcome,
  add constraint job_end_names_its_outcome check (
    (outcome = 'done')
    = (num_nonnulls(evaluation_id, document_id, recomputation_id, lot_package_id, document_batch_id) = 1)
  );
