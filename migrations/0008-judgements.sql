-- What was computed. Each row names the software and every input it was computed from, so that it can be computed again.
-- A later computation is a further row beside the earlier one.

call make_evidence('reading');
alter table reading
  add run_id uuid not null,
  add run_version_id uuid not null,
  add method_revision_id uuid not null,
  add layout_revision_id uuid,
  add software text not null,
  add content jsonb not null,
  add foreign key (lab_id, run_id) references run,
  add foreign key (lab_id, run_version_id) references run_version,
  add foreign key (lab_id, method_revision_id) references method_revision,
  add foreign key (lab_id, layout_revision_id) references layout_revision;
create index on reading (lab_id, run_id);

call make_evidence('verdict_set');
alter table verdict_set
  add run_id uuid not null,
  add reading_id uuid not null,
  add plan_revision_id uuid not null,
  -- As they stood; not there where there was none yet.
  add examination_id uuid,
  add validity_decision_id uuid,
  add software text not null,
  add content jsonb not null,
  add foreign key (lab_id, run_id) references run,
  add foreign key (lab_id, reading_id) references reading,
  add foreign key (lab_id, plan_revision_id) references plan_revision,
  add foreign key (lab_id, examination_id) references examination,
  add foreign key (lab_id, validity_decision_id) references validity_decision;
create index on verdict_set (lab_id, run_id);

-- A lot judged under one plan revision, and the verdicts that entered.
call make_numbered('evaluation');
alter table evaluation
  add lot_id uuid not null,
  add plan_revision_id uuid not null,
  add software text not null,
  add content jsonb not null,
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, plan_revision_id) references plan_revision;
create index on evaluation (lab_id, lot_id);

call make_evidence('evaluation_input');
alter table evaluation_input
  add evaluation_id uuid not null,
  add verdict_set_id uuid not null,
  add unique (lab_id, evaluation_id, verdict_set_id),
  add foreign key (lab_id, evaluation_id) references evaluation,
  add foreign key (lab_id, verdict_set_id) references verdict_set;

-- A paper as it was issued: its bytes, and the content it was laid out from.
call make_numbered('document');
alter table document
  add kind text not null,
  add evaluation_id uuid,
  add raw_id uuid not null,
  add software text not null,
  add content jsonb not null,
  add foreign key (lab_id, evaluation_id) references evaluation,
  add foreign key (lab_id, raw_id) references raw_bytes;
create index on document (lab_id, evaluation_id);
