import type { LotResult } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Numbered } from './row.js';

/** A lot judged under one plan revision. */
@Entity()
export class Evaluation extends Numbered {
  @Column('uuid')
  lotId!: string;

  @Column('uuid')
  planRevisionId!: string;

  /** The records it was made from, as canonical JSON; evaluations older than that have none. */
  @Column('uuid', { nullable: true })
  recordsId!: string | null;

  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  content!: LotResult;
}
