import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** Units made as one, from which specimens are drawn. */
@Entity()
export class Lot extends Noun {
  @Column('uuid')
  productId!: string;
}
