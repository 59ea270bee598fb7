-- What a comparison came to, worked out as a job from the records as they stood, which are kept beside it.
call make_numbered('comparison_result');
alter table comparison_result
  add comparison_id uuid not null,
  add revision_id uuid not null,
  add records_id uuid not null,
  add software text not null,
  -- Digests of what it rests on, by which it is told whether that has changed since.
  add rests_on jsonb not null,
  add content jsonb not null,
  add foreign key (lab_id, comparison_id) references comparison,
  add foreign key (lab_id, revision_id) references comparison_revision,
  add foreign key (lab_id, records_id) references raw_bytes;
create index on comparison_result (lab_id, comparison_id);

-- Conclusions, locked by a signature over a result. A locked one is never changed; a later one names it.
call make_evidence('comparison_conclusion');
alter table comparison_conclusion
  add comparison_id uuid not null,
  add position integer not null check (position > 0),
  add result_id uuid not null,
  add name text not null,
  add role text not null,
  add meaning text not null,
  add shown text not null check (shown ~ '^[0-9a-f]{64}$'),
  add note text,
  add replaces_id uuid,
  add reason text check ((reason is null) = (replaces_id is null)),
  add unique (lab_id, comparison_id, position),
  add unique (lab_id, result_id),
  add unique (lab_id, replaces_id),
  add check ((position = 1) = (replaces_id is null)),
  add foreign key (lab_id, comparison_id) references comparison,
  add foreign key (lab_id, result_id) references comparison_result,
  add foreign key (lab_id, replaces_id) references comparison_conclusion;

create function declarer_locks_no_conclusion() returns trigger language plpgsql as $$
begin
  if exists (
    select from comparison_revision
    where lab_id = new.lab_id and record_id = new.comparison_id and person_id = new.person_id
  ) or exists (
    select from observation
    join observation_version said on said.lab_id = observation.lab_id and said.record_id = observation.id
    where observation.lab_id = new.lab_id and observation.comparison_id = new.comparison_id
      and said.person_id = new.person_id
  ) then
    raise exception 'Conclusions are locked by another person than those who declared the comparison or looked at its items.'
      using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger declarer_locks_no_conclusion before insert on comparison_conclusion
  for each row execute function declarer_locks_no_conclusion();

-- A report of a comparison rests on its conclusion.
call make_evidence('comparison_document');
alter table comparison_document
  add document_id uuid not null,
  add conclusion_id uuid not null,
  add unique (lab_id, document_id),
  add foreign key (lab_id, document_id) references document,
  add foreign key (lab_id, conclusion_id) references comparison_conclusion;
create index on comparison_document (lab_id, conclusion_id);

alter table job
  drop constraint job_kind_check,
  add constraint job_kind_check check (
    kind in (
      'lot evaluation', 'lot test report', 'signed document', 'recomputation', 'lot package',
      'run sheet', 'specimen record', 'label sheet', 'document batch', 'comparison', 'comparison report'
    )
  );

alter table job_end
  add comparison_result_id uuid,
  add foreign key (lab_id, comparison_result_id) references comparison_result,
  drop constraint job_end_names_its_outcome,
  add constraint job_end_names_its_outcome check (
    (outcome = 'done')
    = (num_nonnulls(
      evaluation_id, document_id, recomputation_id, lot_package_id, document_batch_id, comparison_result_id
    ) = 1)
  );
