import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A proposal approved or declined; whoever added the row decided. */
@Entity()
export class ProposalDecision extends Row {
  @Column('uuid')
  proposalId!: string;

  @Column('text')
  decision!: 'approved' | 'declined';

  /** Of exactly what was shown to whoever decided. */
  @Column('text')
  shownSha256!: string;

  /** From which day it holds; not there where it was declined. */
  @Column('text', { nullable: true })
  inForceFrom!: string | null;

  /** Why it was declined. */
  @Column('text', { nullable: true })
  because!: string | null;
}
