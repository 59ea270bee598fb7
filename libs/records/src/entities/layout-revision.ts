import { Layout as LayoutContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** One revision of how files are read; its version is the revision. */
@Entity()
export class LayoutRevision extends Version {
  @Column('jsonb', { transformer: checkedBy(LayoutContent) })
  content!: LayoutContent;
}
