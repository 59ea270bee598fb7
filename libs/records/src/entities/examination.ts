import { Examination as ExaminationContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What a person saw on the specimen after the run, which is its record. */
@Entity()
export class Examination extends Version {
  @Column('jsonb', { transformer: checkedBy(ExaminationContent) })
  content!: ExaminationContent;
}
