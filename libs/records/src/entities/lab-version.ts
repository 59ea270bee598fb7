import { Lab as LabContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** A lab's name, address and zone. */
@Entity()
export class LabVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(LabContent) })
  content!: LabContent;
}
