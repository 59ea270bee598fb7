import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** The end of a token before its time. */
@Entity()
export class RigTokenRevocation extends Row {
  @Column('uuid')
  rigTokenId!: string;

  @Column('text')
  reason!: string;
}
