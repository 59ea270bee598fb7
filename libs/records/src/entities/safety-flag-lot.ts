import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A lot that a version of a safety flag concerns. */
@Entity()
export class SafetyFlagLot extends Row {
  @Column('uuid')
  versionId!: string;

  @Column('uuid')
  lotId!: string;
}
