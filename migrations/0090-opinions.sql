-- Opinions and interpretations (ISO/IEC 17025:2017, 7.8.7): what an authorised person makes of the results of a lot or of
-- one of its runs. They are no results. A later word is a further version, whoever says it, and taking back is one too.

call make_numbered('opinion');
alter table opinion
  add lot_id uuid not null,
  -- Not there where it is about the lot as a whole.
  add run_id uuid,
  add foreign key (lab_id, lot_id) references lot,
  add foreign key (lab_id, run_id) references run;
create index on opinion (lab_id, lot_id);

call make_version('opinion_version', 'opinion');
alter table opinion_version
  add state text not null check (state in ('given', 'withdrawn')),
  add content jsonb not null,
  -- The results it rests on: the evaluation of the lot that was the last when it was written.
  add evaluation_id uuid,
  add check (version > 1 or state = 'given'),
  add foreign key (lab_id, evaluation_id) references evaluation;
