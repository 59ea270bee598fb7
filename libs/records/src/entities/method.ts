import { Entity } from 'typeorm';
import { Noun } from './row.js';

/** A way of testing. */
@Entity()
export class Method extends Noun {}
