import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** What a signed document says, by its digest; written before the file is, which carries the proof of its entry. */
@Entity()
export class DocumentContent extends Row {
  @Column('text')
  kind!: string;

  /** The number printed on it, such as LTR-2407-1. */
  @Column('text')
  document!: string;

  @Column('integer')
  revision!: number;

  /** Of the content in canonical JSON. */
  @Column('text')
  sha256!: string;

  @Column('integer')
  size!: number;
}
