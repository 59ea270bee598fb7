import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A file of a run, under the name it was sent by. */
@Entity()
export class RunFile extends Row {
  @Column('uuid')
  runId!: string;

  /** Not there where one file covers several passages. */
  @Column('uuid', { nullable: true })
  passageId!: string | null;

  /** Its place among the files of the run, from 1. */
  @Column('integer')
  position!: number;

  @Column('text')
  name!: string;

  @Column('uuid')
  rawId!: string;
}
