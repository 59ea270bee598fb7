import { Entity } from 'typeorm';
import { Noun } from './row.js';

/** A machine that loads specimens until they break. */
@Entity()
export class Rig extends Noun {}
