import { Column, PrimaryColumn } from 'typeorm';

/** A row of evidence: added once, by somebody, never changed. `Rows.add` fills in all four. */
export abstract class Row {
  @PrimaryColumn('uuid')
  labId!: string;

  /** UUID of version 7, so that rows lie on the disk in the order they came. */
  @PrimaryColumn('uuid')
  id!: string;

  /** Who added it. */
  @Column('uuid')
  personId!: string;

  @Column('timestamptz')
  at!: Date;
}

/** Something people speak of by a short number, given once and never again. */
export abstract class Numbered extends Row {
  @Column('integer')
  number!: number;
}

/** Something with a name of the lab's own. What is said about it are its versions. */
export abstract class Noun extends Numbered {
  @Column('text')
  key!: string;
}

/** One version of what is said about a record. The highest is in force; every earlier one stays readable. */
export abstract class Version extends Row {
  @Column('uuid')
  recordId!: string;

  @Column('integer')
  version!: number;

  /** Why it was corrected or revised; a first version needs none. */
  @Column('text', { nullable: true })
  reason!: string | null;
}
