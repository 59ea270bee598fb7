import { Rig as RigContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

export const RigBody = RigContent.omit({ placements: true });
export type RigBody = Omit<RigContent, 'placements'>;

/** What a rig is; its sensors are placements. */
@Entity()
export class RigVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(RigBody) })
  content!: RigBody;
}
