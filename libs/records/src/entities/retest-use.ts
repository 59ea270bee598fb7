import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A run that was made by an authorised retest. */
@Entity()
export class RetestUse extends Row {
  @Column('uuid')
  retestId!: string;

  @Column('uuid')
  runId!: string;

  @Column('integer')
  place!: number;
}
