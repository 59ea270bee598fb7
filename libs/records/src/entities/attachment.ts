import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** A photo of one thing: its bytes, and what they show. Exactly one of the four is named. */
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
  mediaType!: 'image/png' | 'image/jpeg';

  /** In pixels, as stored: before any turn the file asks for. */
  @Column('integer')
  width!: number;

  @Column('integer')
  height!: number;

  @Column('uuid')
  rawId!: string;
}
