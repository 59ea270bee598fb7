import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A single specimen that a legal hold covers. */
@Entity()
export class LegalHoldSpecimen extends Row {
  @Column('uuid')
  legalHoldId!: string;

  @Column('uuid')
  specimenId!: string;
}
