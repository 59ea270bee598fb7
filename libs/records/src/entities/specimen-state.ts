import { Column, Entity } from 'typeorm';
import { Version } from './row.js';

/** The state a person put a specimen in. That a run destroyed it stands in `Destruction`. */
@Entity()
export class SpecimenState extends Version {
  @Column('text')
  state!: 'received' | 'conditioned' | 'ready' | 'retained' | 'disposed';

  /** How it was conditioned, where it is kept, why it was taken out, how it was disposed of. */
  @Column('text')
  note!: string;
}
