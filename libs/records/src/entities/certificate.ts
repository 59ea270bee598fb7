import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** A certificate of test, issued over a disposition. */
@Entity()
export class Certificate extends Numbered {
  @Column('uuid')
  lotId!: string;

  @Column('uuid')
  dispositionId!: string;

  /** The signed file. */
  @Column('uuid')
  documentId!: string;

  /** By which whoever has the paper asks for its status. */
  @Column('text')
  token!: string;
}
