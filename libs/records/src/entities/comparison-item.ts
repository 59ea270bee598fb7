import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A specimen that a revision of a comparison compares with its reference. */
@Entity()
export class ComparisonItem extends Row {
  @Column('uuid')
  revisionId!: string;

  @Column('uuid')
  specimenId!: string;
}
