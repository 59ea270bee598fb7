import type { CertificateState } from '@breakbook/lab';
import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** That somebody was sent a certificate, or told what became of it. */
@Entity()
export class CertificateSending extends Row {
  @Column('uuid')
  certificateId!: string;

  /** As it stood when it was sent. */
  @Column('text')
  state!: CertificateState;

  @Column('text')
  recipient!: string;

  /** By letter, by mail, handed over. */
  @Column('text')
  way!: string;
}
