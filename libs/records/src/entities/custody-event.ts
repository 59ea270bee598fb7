import { CustodyEvent as CustodyEventContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Row } from './row.js';

/** One entry of a specimen's custody. */
@Entity()
export class CustodyEvent extends Row {
  @Column('uuid')
  specimenId!: string;

  @Column('jsonb', { transformer: checkedBy(CustodyEventContent) })
  content!: CustodyEventContent;
}
