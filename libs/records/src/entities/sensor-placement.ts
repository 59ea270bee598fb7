import { SensorPlacement as SensorPlacementContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** A sensor at its place on a rig, and the channel it feeds. Its end is a further version. */
@Entity()
export class SensorPlacement extends Version {
  @Column('uuid')
  rigId!: string;

  @Column('uuid')
  sensorId!: string;

  @Column('jsonb', { transformer: checkedBy(SensorPlacementContent) })
  content!: SensorPlacementContent;
}
