import { isNotEvaluated } from '@breakbook/lab';
import { anovaBound } from '../../bounds/anova-bound.js';
import { boundsOfDecisions } from '../../bounds/basis/decided-bound.js';
import { decide, USUAL_ALPHA } from '../../bounds/basis/decision.js';
import { normalQuantile } from '../../distributions/normal.js';
import { weibullQuantile } from '../../distributions/weibull.js';
import type { Generator } from '../../random/generator.js';
import type { Experiment } from '../experiment.js';

const AIM = { coverage: 0.9, confidence: 0.95 };

/** Normal batches with one scatter within, and means that scatter so many times as much. */
function normalBatches(batches: number, size: number, ratio: number, { normal }: Generator): number[][] {
  return Array.from({ length: batches }, () => {
    const mean = 100 + ratio * normal();
    return Array.from({ length: size }, () => mean + normal());
  });
}

function truthOf(ratio: number): number {
  return 100 + normalQuantile(0.1) * Math.hypot(1, ratio);
}

export function anovaExperiments(): Experiment[] {
  return [2, 3, 5, 10].flatMap((batches) =>
    [3, 6].flatMap((size) =>
      [0, 0.5, 1, 2].map(
        (ratio): Experiment => ({
          table: 'Analysis of variance between batches',
          row: { batches, 'in each': size, 'sd between / within': ratio, coverage: 0.9 },
          confidences: [0.95],
          promise: 'told',
          draw(chance) {
            const found = anovaBound(normalBatches(batches, size, ratio, chance), AIM);
            return isNotEvaluated(found) ? undefined : [found.bound <= truthOf(ratio)];
          },
        }),
      ),
    ),
  );
}

/** The whole decision path: every test decides anew on each simulated set of batches. */
export function basisExperiments(): Experiment[] {
  const normal = [1, 3, 5, 10].flatMap((batches) =>
    [0, 0.5, 1]
      .filter((ratio) => batches > 1 || ratio === 0)
      .map((ratio) => ({
        population: `normal, sd between / within ${ratio}`,
        batches,
        truth: truthOf(ratio),
        drawn: (chance: Generator) => normalBatches(batches, 6, ratio, chance),
      })),
  );
  const weibull = [3, 10, 30].map((shape) => ({
    population: `Weibull, shape ${shape}, batches alike`,
    batches: 5,
    truth: weibullQuantile(0.1, { shape, scale: 100 }),
    drawn: (chance: Generator) =>
      Array.from({ length: 5 }, () => Array.from({ length: 6 }, () => chance.weibull({ shape, scale: 100 }))),
  }));
  return [...normal, ...weibull].map(({ population, batches, truth, drawn }): Experiment => {
    const boundOf = boundsOfDecisions(AIM);
    return {
      table: 'Basis value, the whole decision path',
      row: { population, batches, 'in each': 6, coverage: 0.9 },
      confidences: [0.95],
      promise: 'told',
      effort: 0.2,
      draw(chance) {
        const decision = decide(drawn(chance), USUAL_ALPHA);
        const found = isNotEvaluated(decision) ? decision : boundOf(decision);
        return isNotEvaluated(found) ? undefined : [found.bound <= truth];
      },
    };
  });
}
