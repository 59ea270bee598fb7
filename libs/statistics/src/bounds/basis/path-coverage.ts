import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { oneWayAnova } from '../../description/one-way-anova.js';
import { summary } from '../../description/summary.js';
import { normalQuantile } from '../../distributions/normal.js';
import { maximumFor } from '../../fits/location-scale-fit.js';
import { strengthModels } from '../../fits/strength-model.js';
import { type Generator, seededGenerator } from '../../random/generator.js';
import { anovaBound } from '../anova-bound.js';
import { type BasisAim, boundsOfDecisions } from './decided-bound.js';
import { type Decision, decide } from './decision.js';

/** How often the whole path, decisions included, gave a bound that held. */
export interface PathCoverage {
  /** Which population the simulated batches came from, in words. */
  population: string;
  share: number;
  error: number;
  /** Share of the simulated sets of batches for which the path gave no bound. */
  boundless: number;
}

interface BatchPopulation {
  population: string;
  /** The strength that the coverage exceeds. */
  truth: number;
  /** Strengths of one batch. */
  batch(size: number, chance: Generator): number[];
}

export interface PathQuestion extends BasisAim {
  alpha: number;
  seed: number;
  replicates: number;
}

/**
 * The coverage of the path itself, simulated: batches of the same sizes are drawn, the same tests decide anew each time,
 * and the bound they lead to is compared with the truth. Two populations are tried, since tests that pool unlike batches
 * now and then are what makes a path bolder than its last step: the one the decision took, and normal batches that
 * differ as much as these seem to, significantly or not.
 */
export function pathCoverage(decision: Decision, question: PathQuestion): PathCoverage[] | NotEvaluated {
  const populations = [populationTaken(decision, question), batchesAsScattered(decision, question)];
  const found: PathCoverage[] = [];
  for (const population of populations) {
    if (population === undefined) continue;
    if (isNotEvaluated(population)) return population;
    found.push(simulate(population, decision, question, found.length));
  }
  return found;
}

function simulate(
  { population, truth, batch }: BatchPopulation,
  { groups }: Decision,
  { alpha, seed, replicates, ...aim }: PathQuestion,
  stream: number,
): PathCoverage {
  const chance = seededGenerator(seed + stream);
  const boundOf = boundsOfDecisions(aim);
  let [held, bounded] = [0, 0];
  for (let replicate = 0; replicate < replicates; replicate++) {
    const decision = decide(
      groups.map(({ length }) => batch(length, chance)),
      alpha,
    );
    const found = isNotEvaluated(decision) ? decision : boundOf(decision);
    if (isNotEvaluated(found)) continue;
    bounded++;
    if (found.bound <= truth) held++;
  }
  const share = bounded === 0 ? 0 : held / bounded;
  // With none missed the share says that one more would have been the first.
  const spread = Math.max(bounded - held, 1) / Math.max(bounded, 1);
  return {
    population,
    share,
    error: Math.sqrt((spread * Math.max(0, 1 - spread)) / Math.max(bounded, 1)),
    boundless: 1 - bounded / replicates,
  };
}

/** The distribution taken for pooled values, or the one that explains them best where none does; left out if not pooled. */
function populationTaken(
  { groups, pooled, explanations, distribution }: Decision,
  { coverage }: PathQuestion,
): BatchPopulation | NotEvaluated | undefined {
  if (!pooled) return undefined;
  const best = explanations.toSorted((a, b) => b.significance - a.significance)[0]?.distribution;
  const name = distribution ?? best;
  if (name === undefined) return notEvaluated('no distribution could be tried', 'strengths are above 0');
  const model = strengthModels[name];
  const fitted = maximumFor('basisValue', model, { exact: groups.flat() });
  if (isNotEvaluated(fitted)) return fitted;
  const { location, scale } = fitted.likelihood.locationAndScale(fitted.maximum.intercept, fitted.maximum.slope);
  const strength = (share: number) => {
    const y = location + scale * model.family.quantile(share);
    return model.logarithmic ? Math.exp(y) : y;
  };
  return {
    population: `batches alike, ${name} as fitted to all values`,
    truth: strength(1 - coverage),
    batch: (size, chance) => Array.from({ length: size }, () => strength(chance.uniform())),
  };
}

/** Normal batches whose means scatter as those of the sample seem to; left out where they seem not to. */
function batchesAsScattered({ groups }: Decision, aim: PathQuestion): BatchPopulation | NotEvaluated | undefined {
  if (groups.length < 2) return undefined;
  const found = anovaBound(groups, aim);
  if (isNotEvaluated(found)) return isNotEvaluated(oneWayAnova(groups)) ? found : undefined;
  const described = summary(groups.flat());
  if (isNotEvaluated(described)) return described;
  const { betweenSd, withinSd } = found;
  if (betweenSd === 0) return undefined;
  return {
    population: `normal batches, standard deviation ${betweenSd.toPrecision(4)} between and ${withinSd.toPrecision(4)} within them`,
    truth: described.mean + normalQuantile(1 - aim.coverage) * Math.hypot(betweenSd, withinSd),
    batch(size, chance) {
      const mean = described.mean + betweenSd * chance.normal();
      return Array.from({ length: size }, () => mean + withinSd * chance.normal());
    },
  };
}
