import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** What a document is of that rests on no evaluation: a run, a specimen, or a lot. */
@Entity()
export class DocumentSubject extends Row {
  @Column('uuid')
  documentId!: string;

  /** The lot itself, or that of the specimen or the run. */
  @Column('uuid')
  lotId!: string;

  @Column('uuid', { nullable: true })
  specimenId!: string | null;

  @Column('uuid', { nullable: true })
  runId!: string | null;
}
