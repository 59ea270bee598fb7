import { DocumentBatchContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Numbered } from './row.js';

/** Many documents of one kind and lot that were asked for at once. */
@Entity()
export class DocumentBatch extends Numbered {
  @Column('uuid')
  lotId!: string;

  @Column('jsonb', { transformer: checkedBy(DocumentBatchContent) })
  content!: DocumentBatchContent;
}
