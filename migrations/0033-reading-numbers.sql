-- Which runs hold the same numbers? The digest of a file's numbers stands in its reading.

create index reading_numbers on reading using gin ((content -> 'files') jsonb_path_ops);
