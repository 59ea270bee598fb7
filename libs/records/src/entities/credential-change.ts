import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/**
 * That somebody's passphrase was set, replaced or taken away, or what they have beside it. Nothing of any secret stands
 * here.
 */
@Entity()
export class CredentialChange extends Row {
  @Column('uuid')
  whoseId!: string;

  @Column('text')
  cause!:
    | 'first start'
    | 'own choice'
    | 'given by administrator'
    | 'reset at the machine'
    | 'closed'
    | 'code generator added'
    | 'code generator removed'
    | 'passkey added'
    | 'passkey removed'
    | 'recovery codes drawn'
    | 'recovery code used'
    | 'second factors taken away';
}
