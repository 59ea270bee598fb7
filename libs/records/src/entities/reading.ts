import type { Reading as ReadingContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Row } from './row.js';

/** What one version of the software read from a run, limits unknown. */
@Entity()
export class Reading extends Row {
  @Column('uuid')
  runId!: string;

  @Column('uuid')
  runVersionId!: string;

  @Column('uuid')
  methodRevisionId!: string;

  @Column('uuid', { nullable: true })
  layoutRevisionId!: string | null;

  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  content!: ReadingContent;
}
