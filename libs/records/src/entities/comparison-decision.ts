import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** That another person approved what a comparison declares, as it was shown, or why it was declined. */
@Entity()
export class ComparisonDecision extends Row {
  @Column('uuid')
  revisionId!: string;

  @Column('text')
  decision!: 'approved' | 'declined';

  @Column('text')
  shownSha256!: string;

  @Column('text', { nullable: true })
  because!: string | null;
}
