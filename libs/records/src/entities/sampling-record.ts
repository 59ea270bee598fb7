import { type Lot as LotContent, SamplingRecord as SamplingRecordContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** How specimens were drawn from a lot, and by whom. */
@Entity()
export class SamplingRecord extends Version {
  @Column('uuid')
  drawnById!: string;

  @Column('jsonb', { transformer: checkedBy(SamplingRecordContent) })
  content!: NonNullable<LotContent['sampling']>;
}
