import { DispositionSheet } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Row } from './row.js';

/** One signature under a disposition, with exactly what was shown to whoever signed. */
@Entity()
export class DispositionSignature extends Row {
  @Column('uuid')
  dispositionId!: string;

  @Column('integer')
  position!: number;

  @Column('text')
  name!: string;

  @Column('text')
  role!: string;

  @Column('text')
  meaning!: string;

  /** SHA-256 of the canonical JSON of `content`. */
  @Column('text')
  shown!: string;

  @Column('jsonb', { transformer: checkedBy(DispositionSheet) })
  content!: DispositionSheet;
}
