import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** One specimen on one rig. */
@Entity()
export class Run extends Noun {
  @Column('uuid')
  specimenId!: string;
}
