import { isNotEvaluated } from '@breakbook/lab';
import { type LowerToleranceRequest, lowerToleranceBound } from '../../bounds/lower-tolerance-bound.js';
import { toleranceConfidence } from '../../bounds/tolerance-confidence.js';
import { normalQuantile } from '../../distributions/normal.js';
import { weibullQuantile } from '../../distributions/weibull.js';
import { normalModel, weibullModel } from '../../fits/strength-model.js';
import { type Censoring, drawSample, strengthOf } from '../censoring.js';
import { type Experiment, heldAt } from '../experiment.js';
import { SIZES } from './parametric.js';

/** Techniques that serve for comparison only: how far they fall short. */
export function boldExperiments(): Experiment[] {
  const censorings: Censoring[] = [
    { kind: 'complete', share: 0 },
    { kind: 'ended at one value', share: 0.5 },
  ];
  return [weibullModel, normalModel].flatMap((model) =>
    censorings.flatMap((censoring) =>
      SIZES.flatMap((n) =>
        (['likelihood-ratio', 'bootstrap'] as const)
          .filter((technique) => technique === 'likelihood-ratio' || n <= 20)
          .map((technique): Experiment => {
            const truth = strengthOf(model, 0.1);
            const { distribution } = model;
            return {
              table: 'For comparison only: likelihood ratio and bootstrap',
              row: { technique, distribution, test: censoring.kind, n, coverage: 0.9 },
              confidences: [0.95],
              promise: 'told',
              // Each bootstrap bound is itself five hundred fits.
              effort: technique === 'bootstrap' ? 0.05 : 1,
              draw(chance) {
                const sample = drawSample(model, n, censoring, chance);
                const more: Partial<LowerToleranceRequest> =
                  technique === 'bootstrap' ? { replicates: 500, seed: chance.word() } : {};
                const aim = { coverage: 0.9, confidence: 0.95, distribution, technique, ...more };
                const found = lowerToleranceBound({ sample, ...aim });
                return isNotEvaluated(found) ? undefined : [found.bound <= truth];
              },
            };
          }),
      ),
    ),
  );
}

/** What the populations are, and what distribution the bound takes instead. */
const MISTAKEN = [
  ...[3, 10, 30].map((shape) => ({
    population: `Weibull, shape ${shape}`,
    strength: (share: number) => weibullQuantile(share, { shape, scale: 1 }),
    taken: ['normal', 'lognormal'] as const,
  })),
  {
    population: 'normal, cv 0.1',
    strength: (share: number) => 1 + 0.1 * normalQuantile(share),
    taken: ['weibull', 'lognormal'] as const,
  },
  {
    population: 'lognormal, sd of logarithm 0.1',
    strength: (share: number) => Math.exp(0.1 * normalQuantile(share)),
    taken: ['weibull', 'normal'] as const,
  },
];

/** Bounds of a distribution that strength does not have. */
export function wrongModelExperiments(): Experiment[] {
  return MISTAKEN.flatMap(({ population, strength, taken }) =>
    taken.flatMap((distribution) =>
      SIZES.flatMap((n) =>
        [0.9, 0.99].map((coverage): Experiment => {
          const truth = strength(1 - coverage);
          return {
            table: 'The wrong distribution, complete samples',
            row: { population, 'taken for': distribution, n, coverage },
            confidences: [0.95],
            promise: 'told',
            effort: 0.5,
            draw({ uniform }) {
              const sample = { exact: Array.from({ length: n }, () => strength(uniform())) };
              const found = toleranceConfidence(sample, { coverage, strength: truth, distribution, coarse: true });
              return isNotEvaluated(found) ? undefined : heldAt([0.95], found.confidence);
            },
          };
        }),
      ),
    ),
  );
}
