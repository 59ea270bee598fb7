import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A lab. Its id is the lab_id of everything in it. */
@Entity()
export class Lab extends Row {
  @Column('text')
  key!: string;
}
