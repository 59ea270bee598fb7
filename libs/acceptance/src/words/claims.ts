import { type Criterion, type Limit, type Plan } from '@breakbook/lab';
import { counted } from './counted.js';
import { limitInWords, rangeInWords, theLimit } from './limit-in-words.js';
import { boundInWords } from './numbers.js';
import { percent } from './percent.js';

export type Population = Plan['claim']['population'];

const DISTRIBUTION_WORDS = {
  normal: 'a normal distribution of strength',
  lognormal: 'a lognormal distribution of strength',
  weibull: 'a Weibull distribution of strength',
  'distribution-free': 'no distribution of strength',
} as const;

/** What a criterion claims, as a sentence of the plan. */
export function criterionStatement(criterion: Criterion, limit: Limit, population: Population): string {
  switch (criterion.kind) {
    case 'every specimen':
      return `Every specimen tested conforms to ${theLimit(limit)}. No confidence is claimed.`;
    case 'tolerance bound':
      return `At least ${percent(criterion.coverage)} of the ${population} holds ${limitInWords(limit)}, with ${percent(criterion.confidence)} confidence, assuming ${DISTRIBUTION_WORDS[criterion.distribution]}.`;
    case 'zero failures':
      return `At least ${percent(criterion.reliability)} of the ${population} conforms to ${theLimit(limit)}, with ${percent(criterion.confidence)} confidence, shown by specimens ${criterion.raised ? `loaded to ${criterion.raised.loadRatio} times the limit, ` : ''}of which none fails${criterion.raised ? `, assuming a Weibull shape of ${criterion.raised.shape} or more` : ''}.`;
    case 'failures at most':
      return criterion.looks
        ? `No more specimens fail ${theLimit(limit)} than each stage allows: ${criterion.looks.map(({ accept, reject }, index) => `after stage ${index + 1} ${accept} ${accept === 1 ? 'is' : 'are'} accepted and ${reject} rejected`).join('; ')}. No confidence is claimed.`
        : `At most ${counted(criterion.allowed, 'specimen')} tested ${criterion.allowed === 1 ? 'fails' : 'fail'} ${theLimit(limit)}. No confidence is claimed.`;
    case 'response energy':
      return `The load at which ${criterion.share === 0.5 ? 'half' : percent(criterion.share)} of the ${population} breaks meets ${theLimit(limit)}, with ${percent(criterion.confidence)} confidence, each specimen struck once, ${criterion.levels ? `at levels of ${criterion.levels.join(', ')} ${limit.unit}` : `by a staircase in steps of ${criterion.step} ${limit.unit}`}, assuming a normal distribution over the levels.`;
    case 'mean':
      return `The mean of the ${population} lies within ${theLimit(limit)}, with ${percent(criterion.confidence)} confidence.`;
  }
}

export interface BoundFields {
  bound: number;
  unit: string;
  coverage: number;
  confidence: number;
  population: Population;
  /** Specimens that make the claim, and how many of them broke. */
  n: number;
  failures: number;
  /** In `unit`; the bound is printed on the side of it where it lies. */
  limit: number;
}

/** What a lower tolerance bound says of the population. */
export function boundSentence(fields: BoundFields): string {
  const { bound, unit, coverage, confidence, population, n, failures, limit } = fields;
  return `At least ${percent(coverage)} of the ${population} holds ${boundInWords(bound, unit, [limit])} or more, with ${percent(confidence)} confidence (${counted(n, 'specimen')}, ${failures} broken).`;
}

/** What a test without failures says of the population; the share is rounded down. */
export function survivalSentence(fields: {
  reliability: number;
  confidence: number;
  population: Population;
  survivors: number;
  limit: Limit;
}): string {
  const { reliability, confidence, population, survivors, limit } = fields;
  return `At least ${percent(roundedDown(reliability))} of the ${population} holds ${rangeInWords(limit)}, with ${percent(confidence)} confidence (${counted(survivors, 'specimen')}, none failed).`;
}

/** To two digits of the share that may fail, downward: a claim must not grow by being printed. */
function roundedDown(share: number): number {
  if (share === 1) return 1;
  const decimals = Math.ceil(-Math.log10(1 - share)) + 1;
  // A hair below a whole number, from 0.9 * 1000 and the like, is that number.
  return Math.floor(share * 10 ** decimals + 1e-9) / 10 ** decimals;
}
