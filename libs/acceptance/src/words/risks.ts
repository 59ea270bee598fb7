import { isNotEvaluated, type Language, type LineRisk } from '@breakbook/lab';
import { countedIn } from './counted.js';
import { chanceInWords, percent } from './percent.js';
import { sayIn } from './say.js';

interface Point {
  share: number;
  chance: number;
}

function shareOf(share: number, language: Language): string {
  return percent(Number(share.toPrecision(3)), language);
}

/** What a rule by counts risks that claims no confidence: the share of bad units with which a lot still passes half the time. */
export function countRiskSentence(
  {
    curve,
    allowed,
    n,
    size,
  }: {
    curve: readonly Point[];
    allowed: number;
    n: number;
    size: number | undefined;
  },
  language: Language = 'en',
): string {
  const say = sayIn(language);
  const said = [0.05, 0.1, 0.2].flatMap((share) => {
    const point = curve.find((one) => one.share >= share - 1e-9);
    return point ? [point] : [];
  });
  const points = [...new Map(said.map((one) => [one.share, one])).values()].map(({ share, chance }, index) => {
    const values = { share: shareOf(share, language), chance: chanceInWords(chance, language) };
    return index === 0
      ? say('{share} does not conform passes with {chance} chance', values)
      : say('{share} with {chance}', values);
  });
  const failures =
    allowed === 0 ? '' : say(' and {failures} allowed', { failures: countedIn(language, allowed, 'failure') });
  return say('It claims no confidence. {test}, {lot} of which {points}.', {
    test: `${say('With {specimens}', { specimens: countedIn(language, n, 'specimen') })}${failures}`,
    lot: size === undefined ? say('a lot') : say('a lot of {size}', { size }),
    points: points.join(say(', of which ')),
  });
}

/** What a criterion that claims a confidence risks at the edge of its claim. */
export function edgeRiskSentence(
  {
    atLimit,
    keeps,
    lotSize,
    unadjusted,
    looks,
  }: {
    atLimit: Point;
    keeps: number;
    /** Of a claim about one lot; left out, the claim is about a process. */
    lotSize?: number | undefined;
    unadjusted?: number | undefined;
    looks?: number | undefined;
  },
  language: Language = 'en',
): string {
  const say = sayIn(language);
  const values = {
    share: shareOf(atLimit.share, language),
    chance: chanceInWords(atLimit.chance, language),
    schedule:
      looks === undefined || unadjusted === undefined
        ? ''
        : say(
            ' Over its {looks} looks the schedule keeps {keeps}; with the stated confidence at each look it would keep {unadjusted}.',
            {
              looks,
              keeps: percent(Number(keeps.toFixed(3)), language),
              unadjusted: percent(Number(unadjusted.toFixed(3)), language),
            },
          ),
  };
  return lotSize === undefined
    ? say(
        'A process of which {share} lies below the limit, just what the claim denies, passes with {chance} chance.{schedule}',
        values,
      )
    : say(
        'A lot of {size} of which {share} lies below the limit, just what the claim denies, passes with {chance} chance.{schedule}',
        { ...values, size: lotSize },
      );
}

export function meanRiskSentence(
  { confidence, between }: { confidence: number; between: boolean },
  language: Language = 'en',
): string {
  const say = sayIn(language);
  return say(
    'A process whose mean lies just at the limit passes with {chance} chance{less}, however its values scatter; of single specimens below it nothing is said.',
    { chance: chanceInWords(1 - confidence, language), less: between ? say(' or less') : '' },
  );
}

/** All criteria of a line together. */
export function togetherSentence(
  {
    several,
    criteria,
    rule,
    curve = [],
  }: {
    several: boolean;
    criteria: number;
    rule: 'all' | 'any';
    curve?: readonly { share: number; atLeast: number; atMost: number }[];
  },
  language: Language = 'en',
): string {
  const say = sayIn(language);
  if (several)
    return say(
      'All criteria must be met, and they stand against several limits: a lot that is bad by one of them passes the line no more often than it passes that criterion.',
    );
  const tenth = curve.find(({ share }) => share >= 0.1 - 1e-9);
  const between = tenth === undefined ? '' : tenthInWords(tenth, language);
  if (criteria === 1) return say('The line has one criterion.{between}', { between });
  if (rule === 'any')
    return say('Any of {n} criteria is enough, so a lot passes at least as often as by the easiest of them.{between}', {
      n: criteria,
      between,
    });
  return criteria === 2
    ? say(
        'Both criteria must be met on the same specimens, so a lot passes no more often than it passes the hardest of them.{between}',
        { between },
      )
    : say(
        'All {n} criteria must be met on the same specimens, so a lot passes no more often than it passes the hardest of them.{between}',
        { n: criteria, between },
      );
}

function tenthInWords(tenth: { share: number; atLeast: number; atMost: number }, language: Language): string {
  const say = sayIn(language);
  const share = shareOf(tenth.share, language);
  return tenth.atLeast === tenth.atMost
    ? say(' A lot of which {share} lies below the limit passes with {chance} chance.', {
        share,
        chance: chanceInWords(tenth.atMost, language),
      })
    : say(' A lot of which {share} lies below the limit passes with a chance between {least} and {most}.', {
        share,
        least: bare(tenth.atLeast, language),
        most: bare(tenth.atMost, language),
      });
}

function bare(chance: number, language: Language): string {
  return chance <= 0 ? '0' : chance >= 1 ? '1' : chanceInWords(chance, language);
}

export function planRiskSentence(lines: readonly LineRisk[], language: Language = 'en'): string {
  const say = sayIn(language);
  const open = lines.flatMap(({ criteria }) => criteria).filter(isNotEvaluated).length;
  const several = linesTogether(lines.length, language);
  return open === 0
    ? several
    : say('{several} Of {criteria} nothing can be said, for the reasons given.', {
        several,
        criteria: countedIn(language, open, 'criterion'),
      });
}

function linesTogether(n: number, language: Language): string {
  const say = sayIn(language);
  if (n <= 1) return say('The plan has one line, and what it risks is what that line risks.');
  return n === 2
    ? say(
        'Both lines must be met, each on its own specimens: a lot that is bad in what one line is about passes the plan no more often than it passes that line.',
      )
    : say(
        'All {n} lines must be met, each on its own specimens: a lot that is bad in what one line is about passes the plan no more often than it passes that line.',
        { n },
      );
}
