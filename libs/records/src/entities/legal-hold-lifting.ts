import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** The end of a legal hold, and why it ended. */
@Entity()
export class LegalHoldLifting extends Row {
  @Column('uuid')
  legalHoldId!: string;

  @Column('text')
  reason!: string;
}
