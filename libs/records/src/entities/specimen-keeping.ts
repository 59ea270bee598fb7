import { Column, Entity } from 'typeorm';
import { Version } from './row.js';

/** Until which day the remnants of one specimen are kept, where that is another day than its lot's. */
@Entity()
export class SpecimenKeeping extends Version {
  @Column('date')
  until!: string;

  @Column('text')
  note!: string;
}
