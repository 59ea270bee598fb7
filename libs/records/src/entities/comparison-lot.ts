import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A lot of one of the two groups that a revision of a comparison compares. */
@Entity()
export class ComparisonLot extends Row {
  @Column('uuid')
  revisionId!: string;

  @Column('uuid')
  lotId!: string;

  @Column('text')
  side!: 'first' | 'second';
}
