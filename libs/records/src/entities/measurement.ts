import { Measurement as MeasurementContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** A value keyed by a person. It is a record of its own. */
@Entity()
export class Measurement extends Version {
  @Column('uuid')
  runId!: string;

  @Column('jsonb', { transformer: checkedBy(MeasurementContent) })
  content!: MeasurementContent;
}
