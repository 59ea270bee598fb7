import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A lot that a legal hold covers, with every specimen of it. */
@Entity()
export class LegalHoldLot extends Row {
  @Column('uuid')
  legalHoldId!: string;

  @Column('uuid')
  lotId!: string;
}
