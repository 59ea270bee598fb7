import type { RetestGround } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** Leave to make so many runs of a plan line beyond those it asks for. */
@Entity()
export class Retest extends Numbered {
  @Column('uuid')
  lotId!: string;

  @Column('uuid')
  planLineId!: string;

  @Column('integer')
  runs!: number;

  @Column('text')
  ground!: RetestGround;

  @Column('text')
  reason!: string;
}
