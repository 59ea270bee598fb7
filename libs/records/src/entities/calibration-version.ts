import { Calibration as CalibrationContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What a calibration found and left: the only home of corrections. */
@Entity()
export class CalibrationVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(CalibrationContent) })
  content!: CalibrationContent;
}
