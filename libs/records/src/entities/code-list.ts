import { Column, Entity } from 'typeorm';
import { Row } from './row.js';

/** That somebody keeps the list of which item is which; the list itself is withheld until conclusions are locked. */
@Entity()
export class CodeList extends Row {
  @Column('uuid')
  comparisonId!: string;

  @Column('text')
  saltedSha256!: string;
}
