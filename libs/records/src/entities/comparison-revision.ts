import { Comparison as ComparisonContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What a comparison declares, and how much was seen of its items by then; its version is the revision. */
@Entity()
export class ComparisonRevision extends Version {
  @Column('jsonb', { transformer: checkedBy(ComparisonContent) })
  content!: ComparisonContent;

  @Column('integer')
  runsBefore!: number;

  @Column('integer')
  observationsBefore!: number;

  @Column('uuid', { nullable: true })
  referenceRevisionId!: string | null;

  @Column('uuid', { nullable: true })
  alternativeRevisionId!: string | null;
}
