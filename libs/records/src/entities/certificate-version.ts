import type { CertificateState } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { Version } from './row.js';

/** What became of a certificate; the reason is told to whoever asks for its status. */
@Entity()
export class CertificateVersion extends Version {
  @Column('text')
  state!: CertificateState;

  /** The certificate that superseded it. */
  @Column('uuid', { nullable: true })
  replacedById!: string | null;
}
