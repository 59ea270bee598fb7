import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** What stood behind a channel of a run: the sensor at its place, and the calibration in force. */
@Entity()
export class RunChannel extends Row {
  @Column('uuid')
  runVersionId!: string;

  @Column('text')
  channel!: string;

  @Column('uuid')
  sensorPlacementId!: string;

  /** Not there where the sensor had none. */
  @Column('uuid', { nullable: true })
  calibrationVersionId!: string | null;
}
