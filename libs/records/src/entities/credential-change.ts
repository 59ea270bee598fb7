import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** That somebody's passphrase was set, replaced or taken away. Nothing of the passphrase itself stands here. */
@Entity()
export class CredentialChange extends Row {
  @Column('uuid')
  whoseId!: string;

  @Column('text')
  cause!: 'first start' | 'own choice' | 'given by administrator' | 'reset at the machine' | 'closed';
}
