-- Methods, layouts, limits and plans by two people: one proposes a revision, another approves it or declines it. A
-- revision without a proposal was kept before there were any, or came with a lot folder; it counts as approved by whom
-- its content names.

call make_numbered('proposal');
alter table proposal
  add method_revision_id uuid,
  add layout_revision_id uuid,
  add limit_revision_id uuid,
  add plan_revision_id uuid,
  add check (num_nonnulls(method_revision_id, layout_revision_id, limit_revision_id, plan_revision_id) = 1),
  add unique (lab_id, method_revision_id),
  add unique (lab_id, layout_revision_id),
  add unique (lab_id, limit_revision_id),
  add unique (lab_id, plan_revision_id),
  add foreign key (lab_id, method_revision_id) references method_revision,
  add foreign key (lab_id, layout_revision_id) references layout_revision,
  add foreign key (lab_id, limit_revision_id) references limit_revision,
  add foreign key (lab_id, plan_revision_id) references plan_revision;

-- Decided once: of two who decide in the same moment, one is told that it is done.
call make_evidence('proposal_decision');
alter table proposal_decision
  add proposal_id uuid not null,
  add decision text not null check (decision in ('approved', 'declined')),
  -- Of exactly what was shown to whoever decided: the content in canonical JSON.
  add shown_sha256 text not null check (shown_sha256 ~ '^[0-9a-f]{64}$'),
  -- A day of the lab's calendar, YYYY-MM-DD.
  add in_force_from text check (in_force_from ~ '^\d{4}-\d\d-\d\d$'),
  add because text,
  add check ((decision = 'approved') = (in_force_from is not null)),
  add check ((decision = 'declined') = (because is not null)),
  add unique (lab_id, proposal_id),
  add foreign key (lab_id, proposal_id) references proposal;

-- Who proposes approves nothing, whatever the program does.
create function proposer_approves_nothing() returns trigger language plpgsql as $$
begin
  if new.decision = 'approved' and exists (
    select from proposal where lab_id = new.lab_id and id = new.proposal_id and person_id = new.person_id
  ) then
    raise exception 'A revision is approved by another person than the one who proposed it.' using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger proposer_approves_nothing before insert on proposal_decision
  for each row execute function proposer_approves_nothing();
