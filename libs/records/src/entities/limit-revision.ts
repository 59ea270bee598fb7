import { Limit as LimitContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** One revision of a limit; its version is the revision. */
@Entity()
export class LimitRevision extends Version {
  @Column('jsonb', { transformer: checkedBy(LimitContent) })
  content!: LimitContent;
}
