import { Entity } from 'typeorm';
import { Numbered } from './row.js';

/** What somebody saw that may endanger riders. What is said and decided of it are its versions. */
@Entity()
export class SafetyFlag extends Numbered {}
