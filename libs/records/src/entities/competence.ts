import type { CompetenceLevel } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** How far somebody may make runs by a revision of a method; the last row about both is in force. */
@Entity()
export class Competence extends Row {
  @Column('uuid')
  whoseId!: string;

  @Column('uuid')
  methodRevisionId!: string;

  @Column('text')
  level!: CompetenceLevel;

  /** Last day of an authorisation, in the lab's zone. */
  @Column('date', { nullable: true })
  until!: string | null;

  @Column('text')
  note!: string;
}
