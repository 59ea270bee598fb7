import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** When a file says that it was recorded, and in which of its parts. */
export interface RecordedInFile {
  /** Date and time as the file has them, without zone: "2031-03-04T09:12:44". */
  local: string;
  /** Its distance from UTC, where the file says it. */
  zone?: string;
  said: 'EXIF DateTimeOriginal' | 'EXIF DateTime' | 'movie header';
}

/** A photo, video or document of one thing: its bytes, and what they show. Exactly one of the four is named. */
@Entity()
export class Attachment extends Numbered {
  @Column('uuid', { nullable: true })
  lotId!: string | null;

  @Column('uuid', { nullable: true })
  specimenId!: string | null;

  @Column('uuid', { nullable: true })
  runId!: string | null;

  @Column('uuid', { nullable: true })
  rigId!: string | null;

  @Column('text')
  mediaType!: 'image/png' | 'image/jpeg' | 'video/mp4' | 'video/quicktime' | 'application/pdf';

  /** Of photos, in pixels, as stored: before any turn the file asks for. */
  @Column('integer', { nullable: true })
  width!: number | null;

  @Column('integer', { nullable: true })
  height!: number | null;

  /** Not there where the file says nothing of it. */
  @Column('jsonb', { nullable: true })
  recorded!: RecordedInFile | null;

  @Column('uuid')
  rawId!: string;
}
