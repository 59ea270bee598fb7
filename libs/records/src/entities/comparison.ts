import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** Items or groups of lots that are compared with what is known. What is declared of it are its revisions. */
@Entity()
export class Comparison extends Noun {
  @Column('uuid')
  productId!: string;
}
