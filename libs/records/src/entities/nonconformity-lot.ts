import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A lot that a version of a nonconformity concerns. */
@Entity()
export class NonconformityLot extends Row {
  @Column('uuid')
  versionId!: string;

  @Column('uuid')
  lotId!: string;
}
