import { Entity } from 'typeorm';
import { Noun } from './row.js';

/** A limit on a characteristic. */
@Entity()
export class Limit extends Noun {}
