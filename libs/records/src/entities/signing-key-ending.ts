import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** That a pair of keys signs no longer. */
@Entity()
export class SigningKeyEnding extends Row {
  @Column('uuid')
  signingKeyId!: string;

  /** Retired: a later pair took its place. Revoked: nothing that it signed is to be trusted. */
  @Column('text')
  kind!: 'retired' | 'revoked';

  @Column('text')
  reason!: string;
}
