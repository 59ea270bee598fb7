import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** A token with which a rig's computer sends runs. It was shown once; what is kept is its digest. */
@Entity()
export class RigToken extends Numbered {
  @Column('uuid')
  rigId!: string;

  /** The program in whose name runs sent by this token are recorded. */
  @Column('uuid')
  programId!: string;

  /** Where it is used, in the words of whoever made it. */
  @Column('text')
  note!: string;

  @Column('text')
  sha256!: string;

  @Column('timestamptz')
  expiresAt!: Date;
}
