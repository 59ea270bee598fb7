import { Method as MethodContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** One revision of a written procedure; its version is the revision. */
@Entity()
export class MethodRevision extends Version {
  @Column('jsonb', { transformer: checkedBy(MethodContent) })
  content!: MethodContent;
}
