import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** One calibration of one sensor. */
@Entity()
export class Calibration extends Noun {
  @Column('uuid')
  sensorId!: string;
}
