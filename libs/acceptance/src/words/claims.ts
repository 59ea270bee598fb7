import type { Criterion, Language, Limit, Plan } from '@breakbook/lab';
import { countedIn } from './counted.js';
import { limitInWords, rangeInWords, theLimit } from './limit-in-words.js';
import { boundInWords } from './numbers.js';
import { percent } from './percent.js';
import { plain, sayIn } from './say.js';

export type Population = Plan['claim']['population'];

const DISTRIBUTION_WORDS = {
  normal: 'a normal distribution of strength',
  lognormal: 'a lognormal distribution of strength',
  weibull: 'a Weibull distribution of strength',
  'distribution-free': 'no distribution of strength',
} as const;

function ofThe(population: Population, language: Language): string {
  return sayIn(language)(population === 'lot' ? 'of the lot' : 'of the process');
}

/** What a criterion claims, as a sentence of the plan. */
export function criterionStatement(
  criterion: Criterion,
  asked: Limit,
  speaksOf: Population,
  language: Language = 'en',
): string {
  const say = sayIn(language);
  const population = ofThe(speaksOf, language);
  const limit = theLimit(asked, language);
  const number = (value: number) => plain(value, language);
  switch (criterion.kind) {
    case 'every specimen':
      return say('Every specimen tested conforms to {limit}. No confidence is claimed.', { limit });
    case 'tolerance bound':
      return say(
        'At least {share} {population} holds {limit}, with {confidence} confidence, assuming {distribution}.',
        {
          share: percent(criterion.coverage, language),
          population,
          limit: limitInWords(asked, language),
          confidence: percent(criterion.confidence, language),
          distribution: say(DISTRIBUTION_WORDS[criterion.distribution]),
        },
      );
    case 'zero failures': {
      const share = percent(criterion.reliability, language);
      const confidence = percent(criterion.confidence, language);
      return criterion.raised
        ? say(
            'At least {share} {population} conforms to {limit}, with {confidence} confidence, shown by specimens loaded to {ratio} times the limit, of which none fails, assuming a Weibull shape of {shape} or more.',
            {
              share,
              population,
              limit,
              confidence,
              ratio: number(criterion.raised.loadRatio),
              shape: number(criterion.raised.shape),
            },
          )
        : say(
            'At least {share} {population} conforms to {limit}, with {confidence} confidence, shown by specimens of which none fails.',
            { share, population, limit, confidence },
          );
    }
    case 'failures at most': {
      const specimens = countedIn(language, criterion.allowed, 'specimen');
      if (!criterion.looks)
        return criterion.allowed === 1
          ? say('At most {specimens} tested fails {limit}. No confidence is claimed.', { specimens, limit })
          : say('At most {specimens} tested fail {limit}. No confidence is claimed.', { specimens, limit });
      const stages = criterion.looks.map(({ accept, reject }, index) =>
        accept === 1
          ? say('after stage {stage} {accept} is accepted and {reject} rejected', { stage: index + 1, accept, reject })
          : say('after stage {stage} {accept} are accepted and {reject} rejected', {
              stage: index + 1,
              accept,
              reject,
            }),
      );
      return say('No more specimens fail {limit} than each stage allows: {stages}. No confidence is claimed.', {
        limit,
        stages: stages.join('; '),
      });
    }
    case 'response energy':
      return say(
        'The load at which {share} {population} breaks meets {limit}, with {confidence} confidence, each specimen struck once, {how}, assuming a normal distribution over the levels.',
        {
          share: criterion.share === 0.5 ? say('half') : percent(criterion.share, language),
          population,
          limit,
          confidence: percent(criterion.confidence, language),
          how: criterion.levels
            ? say('at levels of {levels} {unit}', {
                levels: criterion.levels.map(number).join(language === 'en' ? ', ' : '; '),
                unit: asked.unit,
              })
            : say('by a staircase in steps of {step} {unit}', { step: number(criterion.step ?? 0), unit: asked.unit }),
        },
      );
    case 'mean':
      return say('The mean {population} lies within {limit}, with {confidence} confidence.', {
        population,
        limit,
        confidence: percent(criterion.confidence, language),
      });
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
export function boundSentence(fields: BoundFields, language: Language = 'en'): string {
  const { bound, unit, coverage, confidence, population, n, failures, limit } = fields;
  return sayIn(language)(
    'At least {share} {population} holds {bound} or more, with {confidence} confidence ({specimens}, {failures} broken).',
    {
      share: percent(coverage, language),
      population: ofThe(population, language),
      bound: boundInWords(bound, unit, [limit], language),
      confidence: percent(confidence, language),
      specimens: countedIn(language, n, 'specimen'),
      failures,
    },
  );
}

/** What a test without failures says of the population; the share is rounded down. */
export function survivalSentence(
  fields: {
    reliability: number;
    confidence: number;
    population: Population;
    survivors: number;
    limit: Limit;
  },
  language: Language = 'en',
): string {
  const { reliability, confidence, population, survivors, limit } = fields;
  return sayIn(language)(
    'At least {share} {population} holds {range}, with {confidence} confidence ({specimens}, none failed).',
    {
      share: percent(roundedDown(reliability), language),
      population: ofThe(population, language),
      range: rangeInWords(limit, language),
      confidence: percent(confidence, language),
      specimens: countedIn(language, survivors, 'specimen'),
    },
  );
}

/** To two digits of the share that may fail, downward: a claim must not grow by being printed. */
function roundedDown(share: number): number {
  if (share === 1) return 1;
  const decimals = Math.ceil(-Math.log10(1 - share)) + 1;
  // A hair below a whole number, from 0.9 * 1000 and the like, is that number.
  return Math.floor(share * 10 ** decimals + 1e-9) / 10 ** decimals;
}
