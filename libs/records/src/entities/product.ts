import { Entity } from 'typeorm';
import { Noun } from './row.js';

/** What is tested: one design of a rim or wheel. */
@Entity()
export class Product extends Noun {}
