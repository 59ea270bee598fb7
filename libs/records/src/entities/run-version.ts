import { Run as RunContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** A run without what has rows of its own. */
export const RunBody = RunContent.omit({
  files: true,
  measurements: true,
  examination: true,
  photos: true,
  validity: true,
});
export type RunBody = Omit<RunContent, 'files' | 'measurements' | 'examination' | 'photos' | 'validity'>;

/** How a run was made, and by which plan line, method and layout. */
@Entity()
export class RunVersion extends Version {
  @Column('uuid')
  planLineId!: string;

  @Column('uuid')
  methodRevisionId!: string;

  /** Neither is there for values keyed from a table. */
  @Column('uuid', { nullable: true })
  rigId!: string | null;

  @Column('uuid', { nullable: true })
  layoutRevisionId!: string | null;

  @Column('uuid')
  operatorId!: string;

  @Column('timestamptz')
  startedAt!: Date;

  @Column('jsonb', { transformer: checkedBy(RunBody) })
  content!: RunBody;
}
