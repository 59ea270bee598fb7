import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A line of a plan revision, with the method revision its runs follow. */
@Entity()
export class PlanLine extends Row {
  @Column('uuid')
  planRevisionId!: string;

  @Column('text')
  key!: string;

  @Column('uuid')
  methodRevisionId!: string;
}
