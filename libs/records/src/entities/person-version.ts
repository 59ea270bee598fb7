import { Person as PersonContent } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

/** A person's name, role and duties. Losing a duty is a further version. */
@Entity()
export class PersonVersion extends Version {
  @Column('jsonb', { transformer: checkedBy(PersonContent) })
  content!: PersonContent;
}
