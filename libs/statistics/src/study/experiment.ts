import { type Generator, seededGenerator } from '../random/generator.js';

/** What is asked of how often a bound holds: exactly the stated confidence, at least that, or only to be told. */
export type Pledge = 'exact' | 'conservative' | 'told';

/** One kind of bound on one kind of sample, to be simulated many times. */
export interface Experiment {
  /** The table it stands in, and its row there. */
  table: string;
  row: Record<string, string | number>;
  /** Confidences at which it is looked at, or the confidence achieved where that is not the one asked for. */
  confidences: readonly number[];
  promise: Pledge;
  /** Simulates as many samples, as a share of those asked for; 1 if left out. */
  effort?: number;
  /** Draws one sample: for each confidence whether its bound lay at or below the truth; undefined where there was no bound. */
  draw(chance: Generator): readonly boolean[] | undefined;
}

/** How often the bounds of an experiment held. */
export interface Outcome {
  experiment: Experiment;
  replicates: number;
  /** For each confidence, of the samples that gave a bound. */
  shares: { confidence: number; held: number; error: number }[];
  /** Share of the samples that gave no bound. */
  notEvaluated: number;
}

/** Simulates one experiment; the same seed gives the same outcome. */
export function simulated(experiment: Experiment, seed: number, wanted: number): Outcome {
  const replicates = Math.max(100, Math.round(wanted * (experiment.effort ?? 1)));
  const chance = seededGenerator(seed);
  const held = experiment.confidences.map(() => 0);
  let bounded = 0;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const answer = experiment.draw(chance);
    if (answer === undefined) continue;
    bounded++;
    answer.forEach((holds, index) => {
      if (holds) held[index] = (held[index] as number) + 1;
    });
  }
  return {
    experiment,
    replicates,
    shares: experiment.confidences.map((confidence, index) => ({
      confidence,
      held: bounded === 0 ? 0 : (held[index] as number) / bounded,
      // Of the confidence stated, not of the share found: that of a share of 1 would be nothing.
      error: bounded === 0 ? 1 : Math.sqrt((confidence * (1 - confidence)) / bounded),
    })),
    notEvaluated: 1 - bounded / replicates,
  };
}

/** For techniques whose level on the truth is known: the bound of a confidence holds where the level is no larger. */
export function heldAt(confidences: readonly number[], level: number): boolean[] {
  return confidences.map((confidence) => level <= confidence);
}
