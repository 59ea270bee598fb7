import { Sensor as SensorContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What a sensor is. */
@Entity()
export class SensorVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(SensorContent) })
  content!: SensorContent;
}
