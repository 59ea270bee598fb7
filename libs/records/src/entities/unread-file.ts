import type { Problem } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Numbered } from './row.js';

/** A refused run file, kept with what was wrong with it. */
@Entity()
export class UnreadFile extends Numbered {
  /** Of the digests of its parts, in order. */
  @Column('text')
  partsSha256!: string;

  /** The first hundred. */
  @Column('jsonb', { transformer: computed })
  problems!: Problem[];

  @Column('integer')
  problemCount!: number;
}
