import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** One wheel or rim. It is destroyed once. */
@Entity()
export class Specimen extends Noun {
  @Column('uuid')
  lotId!: string;
}
