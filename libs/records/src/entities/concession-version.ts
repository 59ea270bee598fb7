import { Concession as ConcessionContent, type ConcessionState } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** How a request stands: asked for, granted, refused, withdrawn. */
@Entity()
export class ConcessionVersion extends Version {
  @Column('text')
  state!: ConcessionState;

  @Column('jsonb', { transformer: checkedBy(ConcessionContent) })
  content!: ConcessionContent;
}
