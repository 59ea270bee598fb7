import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** What an authorised person makes of the results of a lot or a run. What it says are its versions. */
@Entity()
export class Opinion extends Numbered {
  @Column('uuid')
  lotId!: string;

  /** Not there where it is about the lot as a whole. */
  @Column('uuid', { nullable: true })
  runId!: string | null;
}
