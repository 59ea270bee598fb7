import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** One of a run's loadings. */
@Entity()
export class Passage extends Row {
  @Column('uuid')
  runId!: string;

  @Column('integer')
  position!: number;

  @Column('text')
  kind!: 'whole run' | 'strike' | 'stage' | 'step';

  @Column('timestamptz')
  startedAt!: Date;
}
