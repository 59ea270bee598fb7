-- Whether a lot is closed: no specimen is received into it and no run recorded of it any more. A lot of which nothing
-- is said here is open; one that was closed by mistake is opened again by a further version.

call make_version('lot_closing', 'lot');
alter table lot_closing add closed boolean not null;
