-- The records an evaluation was made from, as they stood: a lot, its plan, limits, methods, rigs, calibrations and runs,
-- in canonical JSON. With the raw files they name by digest, the evaluation and every document of it can be computed
-- again, whatever has been added since.

alter table evaluation
  add records_id uuid,
  add foreign key (lab_id, records_id) references raw_bytes;
