-- Every stored run read again from its kept bytes, and compared with the reading that was kept of it: what came of it,
-- each time somebody asked.

call make_numbered('recomputation');
alter table recomputation
  add software text not null,
  add content jsonb not null;

alter table job drop constraint job_kind_check;
alter table job add check (kind in ('lot evaluation', 'lot test report', 'recomputation'));

alter table job_end
  add recomputation_id uuid,
  add foreign key (lab_id, recomputation_id) references recomputation,
  drop constraint job_end_check1;
alter table job_end
  add check ((outcome = 'done') = (num_nonnulls(evaluation_id, document_id, recomputation_id) = 1));
