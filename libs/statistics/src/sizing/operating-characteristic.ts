import { type Distribution, isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalToleranceFactor } from '../bounds/normal-tolerance-factor.js';
import { orderStatisticRank } from '../bounds/order-statistic.js';
import { binomialCdf } from '../distributions/binomial.js';
import { hypergeometricCdf } from '../distributions/hypergeometric.js';
import { requireCount, requireFinite, requireFraction } from '../requirements.js';
import { scoreOfShareBelow, variablesAcceptance } from './acceptance-chance.js';
import { type BoundClaim, type Simulation, weibullAcceptance } from './weibull-acceptance.js';

/** A rule by which a sample of n is accepted. */
export type Criterion =
  /** At most c of n fail; of one lot, if its size is given. */
  | { kind: 'attribute'; n: number; c: number; lotSize?: number | undefined }
  /** mean - k s lies at or above the limit, for normal values. */
  | { kind: 'variables'; n: number; k: number }
  /** The lower tolerance bound lies at or above the limit. */
  | ({ kind: 'tolerance-bound'; n: number; distribution: Distribution } & BoundClaim);

export interface OperatingCharacteristic {
  method: 'operating characteristic';
  criterion: Criterion;
  /** Shares of the population below the limit, fractions. */
  fractionsBelow: number[];
  /** Chance of acceptance for each. */
  acceptance: number[];
  /** Standard error of each, where they are simulated. */
  simulationError?: number[];
  seed?: number;
  replicates?: number;
}

/**
 * How likely is a lot or process accepted, of which so large a share lies below the limit?
 *
 *     attribute         P(at most c of n fail): binomial, hypergeometric for one lot
 *     variables         by the noncentral t (see `variablesAcceptance`)
 *     tolerance bound   normal and lognormal: variables with the one-sided tolerance factor; Weibull: by seeded
 *                       simulation of the conditional bound (see `weibullAcceptance`); distribution-free: the attribute
 *                       plan that allows one failure less than the rank of the bound
 *
 * Assumes specimens drawn at random; variables and bounds the distribution declared.
 *
 * Source: ISO 2859-1, ISO 3951-1:2013; Lieberman and Resnikoff (1955), J. Amer. Statist. Assoc. 50, 457-516.
 */
export function operatingCharacteristic(
  criterion: Criterion,
  fractionsBelow: readonly number[],
  simulation: Simulation = {},
): OperatingCharacteristic | NotEvaluated {
  for (const fraction of fractionsBelow)
    if (!(fraction >= 0 && fraction <= 1))
      throw new RangeError(`operatingCharacteristic: a share lies within 0 and 1; got ${fraction}.`);
  const found = chancesOf(criterion, fractionsBelow, simulation);
  if (isNotEvaluated(found)) return found;
  return {
    method: 'operating characteristic',
    criterion,
    fractionsBelow: [...fractionsBelow],
    ...found,
  };
}

type Chances = Pick<OperatingCharacteristic, 'acceptance' | 'simulationError' | 'seed' | 'replicates'>;

function chancesOf(criterion: Criterion, fractions: readonly number[], simulation: Simulation): Chances | NotEvaluated {
  switch (criterion.kind) {
    case 'attribute':
      requireCount('operatingCharacteristic', { n: criterion.n }, 1);
      requireCount('operatingCharacteristic', { c: criterion.c });
      return { acceptance: fractions.map((fraction) => attributeAcceptance(criterion, fraction)) };
    case 'variables':
      requireCount('operatingCharacteristic', { n: criterion.n }, 2);
      requireFinite('operatingCharacteristic', { k: criterion.k });
      return { acceptance: fractions.map(inside((fraction) => variablesAt(criterion.n, criterion.k, fraction))) };
    case 'tolerance-bound':
      return boundChances(criterion, fractions, simulation);
  }
}

function attributeAcceptance({ n, c, lotSize }: Extract<Criterion, { kind: 'attribute' }>, fraction: number): number {
  if (lotSize === undefined) return binomialCdf(c, n, fraction);
  requireCount('operatingCharacteristic', { lotSize }, 1);
  if (n > lotSize)
    throw new RangeError(`operatingCharacteristic: ${n} specimens cannot come from a lot of ${lotSize}.`);
  const marked = Math.round(fraction * lotSize);
  if (Math.abs(fraction * lotSize - marked) > 1e-9 * lotSize)
    throw new RangeError(
      `operatingCharacteristic: a share of ${fraction} of a lot of ${lotSize} is no whole number of units; ask for ${marked / lotSize}.`,
    );
  return hypergeometricCdf(c, { size: lotSize, marked, drawn: n });
}

function boundChances(
  { n, coverage, confidence, distribution }: Extract<Criterion, { kind: 'tolerance-bound' }>,
  fractions: readonly number[],
  simulation: Simulation,
): Chances | NotEvaluated {
  requireFraction('operatingCharacteristic', { coverage, confidence });
  if (distribution === 'distribution-free') {
    const found = orderStatisticRank({ n, coverage, confidence });
    if (isNotEvaluated(found)) return found;
    return { acceptance: fractions.map((fraction) => binomialCdf(found.rank - 1, n, fraction)) };
  }
  if (n < 2)
    return notEvaluated(
      `${n} strengths say nothing about scatter, so there is no bound`,
      'at least 2 specimens are broken',
    );
  if (distribution === 'weibull') {
    const shares = fractions.filter((fraction) => fraction > 0 && fraction < 1);
    const { chances, simulationError, seed, replicates } = weibullAcceptance(
      n,
      { coverage, confidence },
      shares,
      simulation,
    );
    // Nothing below the limit is always accepted, everything never, and nothing of that is simulated.
    const place = (fraction: number) => shares.indexOf(fraction);
    return {
      acceptance: fractions.map(inside((fraction) => chances[place(fraction)] as number)),
      simulationError: fractions.map((fraction) =>
        place(fraction) < 0 ? 0 : (simulationError[place(fraction)] as number),
      ),
      seed,
      replicates,
    };
  }
  const { k } = normalToleranceFactor({ n, coverage, confidence });
  return { acceptance: fractions.map(inside((fraction) => variablesAt(n, k, fraction))) };
}

function variablesAt(n: number, k: number, fraction: number): number {
  return variablesAcceptance(n, k, scoreOfShareBelow(fraction));
}

/** A population that lies wholly above the limit is always accepted, one wholly below it never. */
function inside(chance: (fraction: number) => number): (fraction: number) => number {
  return (fraction) => (fraction <= 0 ? 1 : fraction >= 1 ? 0 : chance(fraction));
}
