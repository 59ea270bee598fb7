import { Column, Entity } from 'typeorm';
import { Version } from './row.js';

/** Until which day the records of a lot and the remnants of its specimens are kept, that day included. */
@Entity()
export class LotKeeping extends Version {
  @Column('date')
  recordsUntil!: string;

  @Column('date')
  remnantsUntil!: string;

  @Column('text')
  note!: string;
}
