import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** A signature that locks what a comparison came to; from then on nobody is blinded. */
@Entity()
export class ComparisonConclusion extends Row {
  @Column('uuid')
  comparisonId!: string;

  @Column('integer')
  position!: number;

  @Column('uuid')
  resultId!: string;

  @Column('text')
  name!: string;

  @Column('text')
  role!: string;

  @Column('text')
  meaning!: string;

  /** SHA-256 of the canonical JSON of the result that was shown. */
  @Column('text')
  shown!: string;

  @Column('text', { nullable: true })
  note!: string | null;

  /** The conclusion whose place it takes, and why. */
  @Column('uuid', { nullable: true })
  replacesId!: string | null;

  @Column('text', { nullable: true })
  reason!: string | null;
}
