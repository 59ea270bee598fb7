import { Specimen as SpecimenContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** What a specimen is: serial, origin, condition as received. */
@Entity()
export class SpecimenVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(SpecimenContent) })
  content!: SpecimenContent;
}
