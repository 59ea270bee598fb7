-- Beside photos also videos and documents: those have no pixels to be counted. What a file says of when it was recorded
-- stands beside what a person said; it is read from the bytes and never taken for the other.

alter table attachment
  drop constraint attachment_media_type_check,
  alter width drop not null,
  alter height drop not null,
  add recorded jsonb;
alter table attachment
  add constraint attachment_media_type_check
    check (media_type in ('image/png', 'image/jpeg', 'video/mp4', 'video/quicktime', 'application/pdf')),
  add constraint attachment_has_pixels check ((media_type like 'image/%') = (width is not null and height is not null));
