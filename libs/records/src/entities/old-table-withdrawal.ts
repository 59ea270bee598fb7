import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A table that should not have been taken over: its results are shown beside lot and product no longer. */
@Entity()
export class OldTableWithdrawal extends Row {
  @Column('uuid')
  tableId!: string;

  @Column('text')
  reason!: string;
}
