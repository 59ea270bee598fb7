import { Customer as CustomerContent, Lot as LotContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

export const LotBody = LotContent.omit({ sampling: true });
export type LotBody = Omit<LotContent, 'sampling'>;

/** What a lot is, and whom its report is for. */
@Entity()
export class LotVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(LotBody) })
  content!: LotBody;

  @Column('jsonb', { transformer: checkedBy(CustomerContent) })
  customer!: CustomerContent;
}
