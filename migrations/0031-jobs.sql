-- Work that is done after the answer: what was asked for, and how it ended. That something waits or runs is known to the
-- queue (schema jobs); these rows outlive it.
--
-- A job ends once. The row that says so is written in the transaction of the job's effect, so a job that was killed half
-- way and runs again, or runs in two processes at once, or is cancelled in the same moment, has one effect or none.

create table job (
  lab_id uuid not null,
  id uuid not null,
  -- Who asked for it, and in whose name it acts.
  person_id uuid not null,
  at timestamptz(3) not null,
  kind text not null check (kind in ('lot evaluation', 'lot test report')),
  subject jsonb not null,
  primary key (lab_id, id),
  foreign key (lab_id, person_id) references person
);
create index on job (lab_id, person_id, id);
call keep_rows('job');

create table job_end (
  lab_id uuid not null,
  id uuid not null,
  at timestamptz(3) not null default now(),
  outcome text not null check (outcome in ('done', 'failed', 'cancelled')),
  -- Why it failed, as a refusal says it.
  problems jsonb,
  evaluation_id uuid,
  document_id uuid,
  primary key (lab_id, id),
  check ((outcome = 'failed') = (problems is not null)),
  check ((outcome = 'done') = (num_nonnulls(evaluation_id, document_id) = 1)),
  foreign key (lab_id, id) references job,
  foreign key (lab_id, evaluation_id) references evaluation,
  foreign key (lab_id, document_id) references document
);
call keep_rows('job_end');
