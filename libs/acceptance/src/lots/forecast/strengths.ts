import { type Distribution, isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { estimateLognormal, estimateNormal, estimateWeibull, type Generator } from '@breakbook/statistics';
import { weibullPopulations } from './weibull-posterior.js';

/** Draws populations that the strengths seen so far may have come from. */
export interface Plausible {
  /** One population, as a way to draw strengths from it, and how much it counts beside the others. */
  population(): { draw: () => number; weight: number };
  assumption: string;
}

type Place = { location: number; spread: number };

/**
 * Populations of this family that the sample may have come from, each as likely as the sample makes it: the pivotal
 * (fiducial) distribution of its parameters,
 *
 *     spread = b^2 / b*,     location = u - (u* - u) b / b*
 *
 * with u, b fitted to the sample and u*, b* to a sample of the same number drawn from that fit. Exact for complete normal
 * samples, of ln strengths where the distribution is lognormal; a Weibull sample says more than its fit does (see
 * `weibullPopulations`).
 *
 * Each counts with the weight 1 / spread. Unweighted they answer to populations whose location is even whatever their
 * spread; weighted, to populations whose distance from the limit is even, counted in spreads. Whether a limit is met hangs
 * on that distance alone, so that forecasts are then right on average whatever the spreads of the lots that a lab sees.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., appendix E; Hannig (2009), Statistica
 * Sinica 19, 491-544.
 */
export function plausibleStrengths(
  values: readonly number[],
  distribution: Exclude<Distribution, 'distribution-free'>,
  chance: Generator,
): Plausible | NotEvaluated {
  if (values.length < 3)
    return notEvaluated(
      `${values.length} strengths say too little of what others will be`,
      'at least 3 specimens of the claim are broken',
    );
  const assumption = `strengths come from one ${distribution === 'weibull' ? 'Weibull' : distribution} population, as the plan declares`;
  const fitted = placeOf({ exact: [...values] }, distribution);
  if (isNotEvaluated(fitted)) return fitted;
  const draw = drawFrom(distribution, chance);
  if (distribution === 'weibull') {
    const next = weibullPopulations(values.map(Math.log), chance);
    return {
      population: () => {
        const place = next();
        return { draw: () => draw(place), weight: 1 };
      },
      assumption,
    };
  }
  const population = () => {
    for (;;) {
      const again = placeOf({ exact: values.map(() => draw(fitted)) }, distribution);
      if (isNotEvaluated(again)) continue;
      const spread = fitted.spread ** 2 / again.spread;
      const location = fitted.location - ((again.location - fitted.location) * fitted.spread) / again.spread;
      return { draw: () => draw({ location, spread }), weight: fitted.spread / spread };
    }
  };
  return { population, assumption };
}

function placeOf(sample: Sample, distribution: Exclude<Distribution, 'distribution-free'>): Place | NotEvaluated {
  switch (distribution) {
    case 'normal': {
      const found = estimateNormal(sample);
      return isNotEvaluated(found) ? found : { location: found.mean, spread: found.sd };
    }
    case 'lognormal': {
      const found = estimateLognormal(sample);
      return isNotEvaluated(found) ? found : { location: found.logMean, spread: found.logSd };
    }
    case 'weibull': {
      const found = estimateWeibull(sample);
      return isNotEvaluated(found) ? found : { location: Math.log(found.scale), spread: 1 / found.shape };
    }
  }
}

function drawFrom(
  distribution: Exclude<Distribution, 'distribution-free'>,
  chance: Generator,
): (place: Place) => number {
  switch (distribution) {
    case 'normal':
      return ({ location, spread }) => location + spread * chance.normal();
    case 'lognormal':
      return ({ location, spread }) => Math.exp(location + spread * chance.normal());
    case 'weibull':
      return ({ location, spread }) => Math.exp(location) * (-Math.log(chance.uniform())) ** spread;
  }
}
