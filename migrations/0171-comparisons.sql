-- Comparisons: what is compared with what, declared before testing by one person and approved by another.
call make_noun('comparison');
alter table comparison
  add product_id uuid not null,
  add foreign key (lab_id, product_id) references product;

call make_version('comparison_revision', 'comparison');
alter table comparison_revision
  add content jsonb not null,
  -- Runs of its items, and observations of them or for it, that were there when it was declared.
  add runs_before integer not null check (runs_before >= 0),
  add observations_before integer not null check (observations_before >= 0),
  add reference_revision_id uuid,
  add alternative_revision_id uuid,
  add foreign key (lab_id, reference_revision_id) references reference_revision,
  add foreign key (lab_id, alternative_revision_id) references reference_revision;

-- The items of a revision, and of one that compares two groups the lots of either.
call make_evidence('comparison_item');
alter table comparison_item
  add revision_id uuid not null,
  add specimen_id uuid not null,
  add unique (lab_id, revision_id, specimen_id),
  add foreign key (lab_id, revision_id) references comparison_revision,
  add foreign key (lab_id, specimen_id) references specimen;
create index on comparison_item (lab_id, specimen_id);
call make_evidence('comparison_lot');
alter table comparison_lot
  add revision_id uuid not null,
  add lot_id uuid not null,
  add side text not null check (side in ('first', 'second')),
  add unique (lab_id, revision_id, lot_id),
  add foreign key (lab_id, revision_id) references comparison_revision,
  add foreign key (lab_id, lot_id) references lot;
create index on comparison_lot (lab_id, lot_id);

call make_evidence('comparison_decision');
alter table comparison_decision
  add revision_id uuid not null,
  add decision text not null check (decision in ('approved', 'declined')),
  add shown_sha256 text not null check (shown_sha256 ~ '^[0-9a-f]{64}$'),
  add because text check ((decision = 'declined') = (because is not null)),
  add unique (lab_id, revision_id),
  add foreign key (lab_id, revision_id) references comparison_revision;

create function declarer_approves_no_comparison() returns trigger language plpgsql as $$
begin
  if new.decision = 'approved' and exists (
    select from comparison_revision where lab_id = new.lab_id and id = new.revision_id and person_id = new.person_id
  ) then
    raise exception 'A comparison is approved by another person than the one who declared it.' using errcode = 'BB006';
  end if;
  return new;
end $$;
create trigger declarer_approves_no_comparison before insert on comparison_decision
  for each row execute function declarer_approves_no_comparison();

call make_evidence('comparison_withdrawal');
alter table comparison_withdrawal
  add comparison_id uuid not null,
  add reason text not null,
  add unique (lab_id, comparison_id),
  add foreign key (lab_id, comparison_id) references comparison;

-- Why an item cannot be compared.
call make_evidence('comparison_set_aside');
alter table comparison_set_aside
  add comparison_id uuid not null,
  add specimen_id uuid not null,
  add because text not null,
  add unique (lab_id, comparison_id, specimen_id),
  add foreign key (lab_id, comparison_id) references comparison,
  add foreign key (lab_id, specimen_id) references specimen;

-- Who was told of a comparison that ends items which may go to court, or agreed to it.
call make_evidence('comparison_consent');
alter table comparison_consent
  add comparison_id uuid not null,
  add content jsonb not null,
  add foreign key (lab_id, comparison_id) references comparison;
create index on comparison_consent (lab_id, comparison_id);
