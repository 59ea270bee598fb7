import { Entity } from 'typeorm';
import { Noun } from './row.js';

/** A measuring instrument, which moves between rigs. */
@Entity()
export class Sensor extends Noun {}
