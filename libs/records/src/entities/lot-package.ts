import { Column, Entity } from 'typeorm';
import { Numbered } from './row.js';

/** A lot handed out with everything it rests on. */
@Entity()
export class LotPackage extends Numbered {
  @Column('uuid')
  lotId!: string;

  @Column('integer')
  ledgerSize!: number;

  @Column('text')
  descriptorSha256!: string;

  @Column('text')
  sha256!: string;

  @Column('bigint', { transformer: { to: String, from: Number } })
  size!: number;

  @Column('text')
  software!: string;
}
