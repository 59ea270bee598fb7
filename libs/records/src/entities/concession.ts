import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** Leave asked for to depart from a requirement, by whoever added the row. */
@Entity()
export class Concession extends Numbered {
  @Column('uuid')
  lotId!: string;

  @Column('uuid', { nullable: true })
  limitRevisionId!: string | null;
}
