import { type Validity, ValidityDecision as ValidityDecisionContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** Whether the run that is its record is valid, decided by a second person. */
@Entity()
export class ValidityDecision extends Version {
  @Column('text')
  validity!: Validity;

  @Column('jsonb', { transformer: checkedBy(ValidityDecisionContent) })
  content!: ValidityDecisionContent;
}
