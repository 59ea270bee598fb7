import { type LotResult } from '@breakbook/lab';
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

  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  content!: LotResult;
}
