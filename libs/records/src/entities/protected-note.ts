import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** That somebody wrote a note which only some may read: a salted digest, and nothing of what it is about. */
@Entity()
export class ProtectedNote extends Row {
  @Column('text')
  saltedSha256!: string;
}
