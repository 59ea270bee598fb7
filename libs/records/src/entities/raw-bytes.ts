import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** Bytes as they came: their digest, their number, and the digest of each MiB. */
@Entity()
export class RawBytes extends Row {
  @Column('text')
  sha256!: string;

  @Column('bigint', { transformer: { to: String, from: Number } })
  size!: number;

  @Column('text', { array: true })
  chunkSha256!: string[];
}
