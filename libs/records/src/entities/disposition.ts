import type { DispositionOutcome } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** What was decided about a lot; in force once as many have signed as it needs. */
@Entity()
export class Disposition extends Numbered {
  @Column('uuid')
  lotId!: string;

  @Column('uuid')
  evaluationId!: string;

  @Column('text')
  outcome!: DispositionOutcome;

  @Column('integer')
  deciders!: number;

  @Column('text')
  reason!: string;

  @Column('uuid', { nullable: true })
  replacesId!: string | null;
}
