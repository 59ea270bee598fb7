import { ConsentOrNotice } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Row } from './row.js';

/** Who agreed to an examination that ends an item, or was told of it. */
@Entity()
export class ComparisonConsent extends Row {
  @Column('uuid')
  comparisonId!: string;

  @Column('jsonb', { transformer: checkedBy(ConsentOrNotice) })
  content!: ConsentOrNotice;
}
