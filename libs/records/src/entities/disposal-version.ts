import { DisposalDone, type DisposalState } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { checkedBy } from './content.js';
import { Version } from './row.js';

const done = checkedBy(DisposalDone);

/** How a disposal stands, and in the end how it was done. */
@Entity()
export class DisposalVersion extends Version {
  @Column('text')
  state!: DisposalState;

  @Column('jsonb', {
    nullable: true,
    transformer: { to: (value) => (value === null ? value : done.to(value)), from: (value) => done.from(value) },
  })
  done!: DisposalDone | null;
}
