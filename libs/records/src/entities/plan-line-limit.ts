import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A limit revision that the results of a plan line are held against. */
@Entity()
export class PlanLineLimit extends Row {
  @Column('uuid')
  planLineId!: string;

  @Column('uuid')
  limitRevisionId!: string;
}
