import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Numbered } from './row.js';

/** A reading that is not what it was, place by place. */
export interface RecomputedRun {
  run: string;
  method: { method: string; revision: number };
  /** The software that the kept reading was made by. */
  software: string;
  /** The first of them, and how many there are. */
  differences: { pointer: string; place: string; kept?: string | undefined; now?: string | undefined }[];
  count: number;
}

/** What came of reading every run of the lab again. */
export interface RecomputationContent {
  runs: number;
  identical: number;
  different: RecomputedRun[];
  /** Runs that could not be read again, and why. */
  refused: { run: string; because: string }[];
}

/** Every run of the lab read again from its kept bytes, and compared with what was kept of it. */
@Entity()
export class Recomputation extends Numbered {
  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  content!: RecomputationContent;
}
