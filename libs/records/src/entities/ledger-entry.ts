import { Column, Entity, PrimaryColumn } from 'typeorm';

/** One change of a lab: the text that is hashed, and beside it what queries ask for. */
@Entity()
export class LedgerEntry {
  @PrimaryColumn('uuid')
  labId!: string;

  @PrimaryColumn('uuid')
  id!: string;

  /** 1, 2, 3 ... within a lab: the only order there is. */
  @Column('integer')
  sequence!: number;

  @Column('text')
  previous!: string;

  @Column('timestamptz')
  at!: Date;

  @Column('uuid')
  personId!: string;

  @Column('text')
  action!: string;

  @Column('text', { nullable: true })
  reason!: string | null;

  @Column('text')
  text!: string;

  @Column('text')
  hash!: string;
}
