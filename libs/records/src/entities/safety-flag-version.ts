import { SafetyFlag as SafetyFlagContent, type SafetyFlagState } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What is said of a safety flag, and whether it is closed; the reason of its closing is the decision. */
@Entity()
export class SafetyFlagVersion extends Version {
  @Column('text')
  state!: SafetyFlagState;

  @Column('jsonb', { transformer: checkedBy(SafetyFlagContent) })
  content!: SafetyFlagContent;
}
