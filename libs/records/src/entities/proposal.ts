import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** A revision put before another person. One of the four is there; whoever added the row proposed it. */
@Entity()
export class Proposal extends Numbered {
  @Column('uuid', { nullable: true })
  methodRevisionId!: string | null;

  @Column('uuid', { nullable: true })
  layoutRevisionId!: string | null;

  @Column('uuid', { nullable: true })
  limitRevisionId!: string | null;

  @Column('uuid', { nullable: true })
  planRevisionId!: string | null;
}
