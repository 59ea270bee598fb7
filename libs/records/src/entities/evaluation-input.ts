import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A verdict set that entered an evaluation. */
@Entity()
export class EvaluationInput extends Row {
  @Column('uuid')
  evaluationId!: string;

  @Column('uuid')
  verdictSetId!: string;
}
