import { Plan as PlanContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** One revision of a plan; its version is the revision. */
@Entity()
export class PlanRevision extends Version {
  @Column('jsonb', { transformer: checkedBy(PlanContent) })
  content!: PlanContent;
}
