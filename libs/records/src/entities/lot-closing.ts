import { Column, Entity } from 'typeorm';
import { Version } from './row.js';

/** Whether a lot is closed to further specimens and runs. */
@Entity()
export class LotClosing extends Version {
  @Column('boolean')
  closed!: boolean;
}
