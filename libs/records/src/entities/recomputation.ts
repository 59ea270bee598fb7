import { Column, Entity } from 'typeorm';
import { computed } from './content.js';
import { Numbered } from './row.js';

/** What is not as it was kept, and by which software that was made. */
export interface Recomputed {
  software: string;
  /** The first of them, those of what was kept before those that only came to it, and how many there are. */
  differences: { pointer: string; place: string; kept?: string | undefined; now?: string | undefined }[];
  count: number;
  /** What only came to it, and in how many places; left out by those made before these were told apart. */
  added?: { name: string; places: number }[] | undefined;
}

/** A reading that is not what it was. */
export interface RecomputedRun extends Recomputed {
  run: string;
  method: { method: string; revision: number };
}

/** A judgement of a lot that is not what it was. */
export interface RecomputedEvaluation extends Recomputed {
  evaluation: number;
  lot: string;
}

/** What came of reading every run of the lab again, and of judging every evaluated lot again. */
export interface RecomputationContent {
  runs: number;
  identical: number;
  different: RecomputedRun[];
  /** Runs that could not be read again, and why. */
  refused: { run: string; because: string }[];
  /** Left out by those made before evaluations were compared too. */
  evaluations?: {
    evaluations: number;
    identical: number;
    different: RecomputedEvaluation[];
    refused: { evaluation: number; lot: string; because: string }[];
  };
}

/** Every run of the lab read again from its kept bytes, and compared with what was kept of it; every evaluation likewise. */
@Entity()
export class Recomputation extends Numbered {
  @Column('text')
  software!: string;

  @Column('jsonb', { transformer: computed })
  content!: RecomputationContent;
}
