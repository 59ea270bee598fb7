import { Observation as ObservationContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What was seen of a feature on a specimen, as it was written down, or corrected with its reason. */
@Entity()
export class ObservationVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(ObservationContent) })
  content!: ObservationContent;
}
