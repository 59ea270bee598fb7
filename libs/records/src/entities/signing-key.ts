import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** The public halves of a pair of keys that the lab signs documents with. */
@Entity()
export class SigningKey extends Numbered {
  /** In PEM: of the key that signs files, then what that one was issued by. */
  @Column('jsonb')
  certificates!: string[];

  /** Of the key that signs data, with its thumbprint as `kid` (RFC 7517, 7638, 8037). */
  @Column('jsonb')
  dataKey!: { kty: 'OKP'; crv: 'Ed25519'; x: string; kid: string };
}
