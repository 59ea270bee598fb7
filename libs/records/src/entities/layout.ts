import { Column, Entity } from 'typeorm';
import { Noun } from './row.js';

/** The form of one rig's files. */
@Entity()
export class Layout extends Noun {
  @Column('uuid')
  rigId!: string;
}
