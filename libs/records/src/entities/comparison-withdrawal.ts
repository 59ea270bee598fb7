import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** Why a comparison goes no further. */
@Entity()
export class ComparisonWithdrawal extends Row {
  @Column('uuid')
  comparisonId!: string;

  @Column('text')
  reason!: string;
}
