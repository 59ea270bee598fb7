import { isNotEvaluated, type Sample } from '@breakbook/lab';
import { lowerToleranceBound } from '../../bounds/lower-tolerance-bound.js';
import { toleranceConfidence } from '../../bounds/tolerance-confidence.js';
import { normalModel, type StrengthModel, weibullModel } from '../../fits/strength-model.js';
import type { Generator } from '../../random/generator.js';
import { type Experiment, heldAt } from '../experiment.js';
import { SIZES } from './parametric.js';

/** Strengths known within steps, or as at most: the bound at the stated level, before the answer's own simulation. */
export function intervalExperiments(): Experiment[] {
  const kinds = ['in steps', 'some at most'] as const;
  return [normalModel, weibullModel].flatMap((model) =>
    kinds.flatMap((kind) =>
      SIZES.map((n): Experiment => {
        const truth = model.family.quantile(0.1);
        return {
          table: 'Strengths known within steps or as at most: generalised pivotal at the stated level',
          row: { distribution: model.distribution, known: kind, n, coverage: 0.9 },
          confidences: [0.95],
          promise: 'told',
          effort: 0.5,
          draw(chance) {
            const sample = raised(
              kind === 'in steps' ? inSteps(model, n, chance) : someAtMost(model, n, chance),
              model,
            );
            const strength = model.logarithmic ? Math.exp(truth) : truth;
            const { distribution } = model;
            const found = toleranceConfidence(sample, { coverage: 0.9, strength, distribution, coarse: true });
            return isNotEvaluated(found) ? undefined : heldAt([0.95], found.confidence);
          },
        };
      }),
    ),
  );
}

/** The whole calibrated answer, its own simulation and the level it raises included, where the level alone falls short. */
export function wholeAnswerExperiments(): Experiment[] {
  return [weibullModel, normalModel].map((model): Experiment => {
    const truth = model.family.quantile(0.1);
    return {
      table: 'The whole calibrated answer, its own simulation included',
      row: { distribution: model.distribution, known: 'half at most', n: 3, coverage: 0.9 },
      confidences: [0.95],
      promise: 'told',
      effort: 0.03,
      draw(chance) {
        const sample = raised(someAtMost(model, 3, chance, 0.5), model);
        const aim = {
          coverage: 0.9,
          confidence: 0.95,
          distribution: model.distribution,
          technique: 'calibrated',
        } as const;
        const found = lowerToleranceBound({ sample, ...aim, replicates: 500, seed: chance.word() });
        return isNotEvaluated(found) ? undefined : [found.bound <= (model.logarithmic ? Math.exp(truth) : truth)];
      },
    };
  });
}

function inSteps({ family }: StrengthModel, n: number, { uniform }: Generator): Sample {
  const grid = [-3, -2, -1, 0, 1, 2];
  const sample = { atLeast: [] as number[], atMost: [] as number[], between: [] as [number, number][] };
  for (let specimen = 0; specimen < n; specimen++) {
    const y = family.quantile(uniform());
    const next = grid.findIndex((end) => y <= end);
    if (next === 0) sample.atMost.push(grid[0] as number);
    else if (next < 0) sample.atLeast.push(grid[grid.length - 1] as number);
    else sample.between.push([grid[next - 1] as number, grid[next] as number]);
  }
  return sample;
}

function someAtMost({ family }: StrengthModel, n: number, { uniform }: Generator, share = 0.2): Sample {
  const end = family.quantile(share);
  const sample = { exact: [] as number[], atMost: [] as number[] };
  for (let specimen = 0; specimen < n; specimen++) {
    const y = family.quantile(uniform());
    if (y <= end) sample.atMost.push(end);
    else sample.exact.push(y);
  }
  return sample;
}

/** From the scale of the family to strengths. */
function raised(
  { exact = [], atLeast = [], atMost = [], between = [] }: Sample,
  { logarithmic }: StrengthModel,
): Sample {
  if (!logarithmic) return { exact, atLeast, atMost, between };
  return {
    exact: exact.map(Math.exp),
    atLeast: atLeast.map(Math.exp),
    atMost: atMost.map(Math.exp),
    between: between.map(([low, high]) => [Math.exp(low), Math.exp(high)]),
  };
}
