import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** A set of specimens of known making. Which ones are its revisions. */
@Entity()
export class Reference extends Noun {
  @Column('uuid')
  productId!: string;
}
