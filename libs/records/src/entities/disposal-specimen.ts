import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A specimen that a disposal names. */
@Entity()
export class DisposalSpecimen extends Row {
  @Column('uuid')
  disposalId!: string;

  @Column('uuid')
  specimenId!: string;
}
