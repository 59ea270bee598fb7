import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** The run that destroyed a specimen. */
@Entity()
export class Destruction extends Row {
  @Column('uuid')
  specimenId!: string;

  @Column('uuid')
  runId!: string;

  /** The decision that made the run before void, where there was one. */
  @Column('uuid', { nullable: true })
  afterVoidId!: string | null;
}
