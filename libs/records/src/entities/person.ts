import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** Somebody who acts in a lab, or a program that acts in its own name. */
@Entity()
export class Person extends Noun {
  @Column('text')
  kind!: 'person' | 'program';
}
