import { Nonconformity as NonconformityContent, type NonconformityState } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What is known and done about a nonconformity, and whether it is closed. */
@Entity()
export class NonconformityVersion extends Version {
  @Column('text')
  state!: NonconformityState;

  @Column('jsonb', { transformer: checkedBy(NonconformityContent) })
  content!: NonconformityContent;
}
