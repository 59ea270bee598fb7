import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** Why an item of a comparison cannot be compared. */
@Entity()
export class ComparisonSetAside extends Row {
  @Column('uuid')
  comparisonId!: string;

  @Column('uuid')
  specimenId!: string;

  @Column('text')
  because!: string;
}
