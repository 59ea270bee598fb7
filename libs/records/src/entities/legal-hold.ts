import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** What must be kept as it is, whatever day was said, until somebody else lifts the hold. */
@Entity()
export class LegalHold extends Numbered {
  /** Such as the file number of counsel. */
  @Column('text')
  reference!: string;

  @Column('text')
  reason!: string;
}
