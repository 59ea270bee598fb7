import type { Problem } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** A table of results of earlier days, as it was taken over: its bytes, and where it comes from. */
@Entity()
export class OldTable extends Numbered {
  /** As the file was called by whoever sent it. */
  @Column('text')
  name!: string;

  /** Where it comes from. */
  @Column('text')
  note!: string;

  @Column('uuid')
  rawId!: string;

  /** How many rows it has. */
  @Column('integer')
  results!: number;

  @Column('jsonb')
  flags!: Problem[];
}
