import { Column, Entity } from 'typeorm';
import { Version } from './row.js';

/** That somebody else than its recorders went through the run that is its record, after its validity was decided. */
@Entity()
export class RunReview extends Version {
  @Column('uuid')
  validityDecisionId!: string;

  /** How much had been said of the run; a later word needs a later review. */
  @Column('integer')
  runVersion!: number;

  @Column('text', { nullable: true })
  note!: string | null;
}
