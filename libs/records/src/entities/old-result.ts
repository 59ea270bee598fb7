import { OldResult as Content } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Row } from './row.js';

/** One row of such a table: a result with no raw file, which is no run and enters no judgement. */
@Entity()
export class OldResult extends Row {
  @Column('uuid')
  tableId!: string;

  @Column('integer')
  line!: number;

  @Column('uuid')
  productId!: string;

  /** Where the lab knows the lot that the row names. */
  @Column('uuid', { nullable: true })
  lotId!: string | null;

  @Column('jsonb', { transformer: checkedBy(Content) })
  content!: Content;
}
