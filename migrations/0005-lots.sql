-- Lots, how specimens were drawn from them, and the specimens.

call make_noun('lot');
alter table lot
  add product_id uuid not null,
  add foreign key (lab_id, product_id) references product;
call make_version('lot_version', 'lot');
alter table lot_version
  add content jsonb not null,
  -- Whom the report is for.
  add customer jsonb not null;

-- Not there where the lab did not draw: results then concern the sample as received.
call make_version('sampling_record', 'lot');
alter table sampling_record
  add drawn_by_id uuid not null,
  add content jsonb not null,
  add foreign key (lab_id, drawn_by_id) references person;

call make_noun('specimen');
alter table specimen
  add lot_id uuid not null,
  add foreign key (lab_id, lot_id) references lot;
create index on specimen (lab_id, lot_id);
call make_version('specimen_version', 'specimen');
alter table specimen_version add content jsonb not null;
