import { NewDisposal } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Numbered } from './row.js';

/** Remnants that somebody wants to be rid of, and why. How that stands are its versions. */
@Entity()
export class Disposal extends Numbered {
  @Column('jsonb', { transformer: checkedBy(NewDisposal) })
  content!: NewDisposal;
}
