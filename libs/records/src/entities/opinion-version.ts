import { Opinion as OpinionContent, type OpinionState } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** An opinion as somebody gave it, and whether it was taken back. */
@Entity()
export class OpinionVersion extends Version {
  @Column('text')
  state!: OpinionState;

  @Column('jsonb', { transformer: checkedBy(OpinionContent) })
  content!: OpinionContent;

  /** The last evaluation of the lot when it was said. */
  @Column('uuid', { nullable: true })
  evaluationId!: string | null;
}
