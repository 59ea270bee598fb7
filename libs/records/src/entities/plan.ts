import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** What will be tested, and what is claimed by it. */
@Entity()
export class Plan extends Noun {
  @Column('uuid')
  productId!: string;
}
