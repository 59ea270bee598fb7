import { Reference as ReferenceContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** One revision of a reference, frozen when it was added; its version is the revision. */
@Entity()
export class ReferenceRevision extends Version {
  @Column('jsonb', { transformer: checkedBy(ReferenceContent) })
  content!: ReferenceContent;
}
