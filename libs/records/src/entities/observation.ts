import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** A feature of a specimen that was looked at for a comparison. What was seen are its versions. */
@Entity()
export class Observation extends Numbered {
  @Column('uuid')
  comparisonId!: string;

  @Column('uuid')
  specimenId!: string;

  @Column('text')
  feature!: string;
}
