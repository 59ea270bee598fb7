import { Column, Entity, PrimaryColumn } from 'typeorm';

/** How far a lab's ledger had grown, as a signed note. */
@Entity()
export class LedgerCheckpoint {
  @PrimaryColumn('uuid')
  labId!: string;

  @PrimaryColumn('uuid')
  id!: string;

  @Column('timestamptz')
  at!: Date;

  /** How many entries, and the root of the Merkle tree over them. */
  @Column('integer')
  size!: number;

  @Column('text')
  root!: string;

  /** The public half of the key that signed it, as one line. */
  @Column('text')
  key!: string;

  @Column('text')
  note!: string;
}
