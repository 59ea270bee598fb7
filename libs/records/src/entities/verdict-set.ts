import type { RunJudgement } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Row } from './row.js';

/** How the results of a run stand against the limits of one plan revision. */
@Entity()
export class VerdictSet extends Row {
  @Column('uuid')
  runId!: string;

  @Column('uuid')
  readingId!: string;

  @Column('uuid')
  planRevisionId!: string;

  /** As they stood; not there where there was none yet. */
  @Column('uuid', { nullable: true })
  examinationId!: string | null;

  @Column('uuid', { nullable: true })
  validityDecisionId!: string | null;

  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  content!: RunJudgement;
}
