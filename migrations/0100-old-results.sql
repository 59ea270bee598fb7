-- Results of earlier days, taken over from a table: marked as told, with no raw file behind them. They are records of
-- their own kind and no runs, so that nothing that reads runs, readings or verdicts can meet one by mistake. The bytes
-- of the table are kept as they came.

call make_numbered('old_table');
alter table old_table
  add name text not null,
  add note text not null,
  add raw_id uuid not null,
  add results integer not null check (results > 0),
  add flags jsonb not null,
  add foreign key (lab_id, raw_id) references raw_bytes,
  add unique (lab_id, raw_id);

call make_evidence('old_result');
alter table old_result
  add table_id uuid not null,
  -- Physical line in the table.
  add line integer not null check (line > 1),
  add product_id uuid not null,
  -- Where the lab knows the lot that the row names.
  add lot_id uuid,
  add content jsonb not null,
  add foreign key (lab_id, table_id) references old_table,
  add foreign key (lab_id, product_id) references product,
  add foreign key (lab_id, lot_id) references lot,
  add unique (lab_id, table_id, line);
create index on old_result (lab_id, lot_id);
create index on old_result (lab_id, product_id);

-- A table that should not have been taken over stays readable, and its results are shown no longer beside lot and product.
call make_evidence('old_table_withdrawal');
alter table old_table_withdrawal
  add table_id uuid not null,
  add reason text not null,
  add foreign key (lab_id, table_id) references old_table,
  add unique (lab_id, table_id);
