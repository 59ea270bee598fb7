import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A package of a lot that was made as evidence for a safety flag. */
@Entity()
export class SafetyFlagPackage extends Row {
  @Column('uuid')
  safetyFlagId!: string;

  @Column('uuid')
  lotPackageId!: string;
}
