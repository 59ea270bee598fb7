-- What a lab defines before it tests: products, methods, limits, plans. Each is revised by a further version, and
-- whatever was judged names the versions it was judged by, so none is ever out of reach.

call make_noun('product');
call make_version('product_version', 'product');
alter table product_version add content jsonb not null;

call make_noun('method');
call make_version('method_revision', 'method');
alter table method_revision add content jsonb not null;

call make_noun('limit');
call make_version('limit_revision', 'limit');
alter table limit_revision add content jsonb not null;

call make_noun('plan');
alter table plan
  add product_id uuid not null,
  add foreign key (lab_id, product_id) references product;
call make_version('plan_revision', 'plan');
alter table plan_revision add content jsonb not null;

-- A line of a plan revision: which method revision, and which limit revisions its results are held against. The content
-- of the plan says the same by name; these rows answer "which plans use this limit?" in one query.
call make_evidence('plan_line');
alter table plan_line
  add plan_revision_id uuid not null,
  add key text not null,
  add method_revision_id uuid not null,
  add unique (lab_id, plan_revision_id, key),
  add foreign key (lab_id, plan_revision_id) references plan_revision,
  add foreign key (lab_id, method_revision_id) references method_revision;

call make_evidence('plan_line_limit');
alter table plan_line_limit
  add plan_line_id uuid not null,
  add limit_revision_id uuid not null,
  add unique (lab_id, plan_line_id, limit_revision_id),
  add foreign key (lab_id, plan_line_id) references plan_line,
  add foreign key (lab_id, limit_revision_id) references limit_revision;
create index on plan_line_limit (lab_id, limit_revision_id);
