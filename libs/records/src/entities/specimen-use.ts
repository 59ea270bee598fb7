import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A run's place in the order of the runs of its specimen. */
@Entity()
export class SpecimenUse extends Row {
  @Column('uuid')
  specimenId!: string;

  @Column('uuid')
  runId!: string;

  /** The run before it; null for the first. */
  @Column('uuid', { nullable: true })
  afterRunId!: string | null;
}
