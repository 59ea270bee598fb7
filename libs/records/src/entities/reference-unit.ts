import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A specimen that a revision of a reference names. */
@Entity()
export class ReferenceUnit extends Row {
  @Column('uuid')
  revisionId!: string;

  @Column('uuid')
  specimenId!: string;
}
