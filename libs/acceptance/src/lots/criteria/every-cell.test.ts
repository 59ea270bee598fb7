import { Criterion, Distribution, Plan } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { examined, internalLimit, planOf, validBy } from '../../fixtures/invented-lot.js';
import {
  bound,
  broke,
  every,
  type GivenLot,
  judged,
  ref,
  survived,
  type Tested,
  tyreOff,
  zero,
} from '../../fixtures/judged-lot.js';

const LEVELS = [1800, 1900, 2000, 2100, 2200];
const response = (how: { step: number } | { levels: number[] }): Criterion => ({
  kind: 'response energy',
  criterion: 'response',
  limit: ref,
  share: 0.5,
  confidence: 0.9,
  ...how,
});

/** Every kind of criterion, each so that five good rims, or twelve good wheels struck once, meet it. */
const CRITERIA = {
  every,
  count: { kind: 'failures at most', criterion: 'count', limit: ref, allowed: 1 },
  normal: bound('normal'),
  lognormal: bound('lognormal'),
  weibull: bound('weibull', 0.5, 0.5),
  weakest: bound('distribution-free', 0.5, 0.9),
  zero: zero(0.6, 0.9),
  raised: {
    ...(zero(0.8, 0.9) as Extract<Criterion, { kind: 'zero failures' }>),
    raised: { loadRatio: 1.1, shape: 10, shapeSource: 'invented', lowerShapes: [5], modes: ['BF-FLG'] },
  },
  staircase: response({ step: 100 }),
  levels: response({ levels: LEVELS }),
  mean: { kind: 'mean', criterion: 'mean', limit: ref, confidence: 0.95 },
} satisfies Record<string, Criterion>;
type Name = keyof typeof CRITERIA;
const NAMES = Object.keys(CRITERIA) as Name[];
const struck = (name: Name) => CRITERIA[name].kind === 'response energy';

const rims = (...values: number[]): Tested[] => values.map((value) => ({ value }));
const good = rims(1700, 1750, 1800, 1850, 1900);
const strike = (level: number, broke: boolean): Tested =>
  broke
    ? { value: level, recorded: { kind: 'atMost', value: level } }
    : { value: level, recorded: { kind: 'atLeast', value: level }, examination: survived };

/** Down a step of 100 after a break and up one after none, from 2000. */
function staircase(outcomes: string): Tested[] {
  let level = 2000;
  return [...outcomes].map((outcome) => {
    const one = strike(level, outcome === 'x');
    level += outcome === 'x' ? -100 : 100;
    return one;
  });
}
// Levels 2000 2100 2000 1900 2000 2100 2200 2100 2000 1900 2000 1900; held up to 2100, broken from 1900.
const upAndDown = staircase('oxxooo' + 'xxxoxo');
const spread = [
  [1800, 'oo'],
  [1900, 'ox'],
  [2000, 'ooxx'],
  [2100, 'ox'],
  [2200, 'xx'],
].flatMap(([level, outcomes]) => [...(outcomes as string)].map((one) => strike(level as number, one === 'x')));
const goodFor = (name: Name) => (name === 'staircase' ? upAndDown : name === 'levels' ? spread : good);

const last = (tested: readonly Tested[], change: Partial<Tested>): Tested[] =>
  tested.map((one, index) => (index === tested.length - 1 ? { ...one, ...change } : one));

interface Sample {
  tested: (name: Name) => Tested[];
  given?: (name: Name) => GivenLot;
}

const SAMPLES = {
  complete: { tested: goodFor },
  survivors: {
    tested: (name) =>
      name === 'staircase'
        ? staircase('oooooooooooo')
        : name === 'levels'
          ? spread.map(({ value }) => strike(value, false))
          : good.map((one) => ({ ...one, examination: survived })),
  },
  'ended at the last break': {
    tested: (name) =>
      name === 'staircase'
        ? staircase('oxoxoxoxoxox')
        : name === 'levels'
          ? spread.map(({ value }) => strike(value, value > 2000))
          : rims(1700, 1750, 1800, 1800, 1800).map((one, index) =>
              index < 3 ? one : { ...one, examination: survived },
            ),
  },
  'another mode on a sound part': {
    tested: (name) =>
      struck(name)
        ? goodFor(name).map((one) =>
            one.recorded?.kind === 'atLeast' ? { value: one.value, examination: tyreOff } : one,
          )
        : good.map((one, index) => (index === 2 ? { ...one, examination: tyreOff } : one)),
  },
  'one fails': {
    tested: (name) =>
      struck(name) ? goodFor(name).map((one) => ({ ...one, ...lower(one, 700) })) : last(good, { value: 1400 }),
    given: (name) =>
      name === 'levels' ? { criteria: [response({ levels: LEVELS.map((level) => level - 700) })] } : {},
  },
  'one stopped short': {
    tested: (name) =>
      last(goodFor(name), {
        value: 1400,
        recorded: { kind: 'exact', value: 1400 },
        examination: examined('stopped early', [], 'sound'),
      }),
  },
  'one not examined': { tested: (name) => last(goodFor(name), { examination: undefined }) },
  'too few': { tested: (name) => goodFor(name).slice(0, -1) },
  'all equal': {
    tested: (name) =>
      struck(name)
        ? goodFor(name).map((one) => ({ ...one, ...lower(one, one.value - 2000) }))
        : good.map(() => ({ value: 1800 })),
  },
  'one outlier': {
    tested: (name) =>
      struck(name)
        ? last(goodFor(name), { examination: broke, ...strike(1300, true) })
        : rims(1800, 1805, 1795, 1802, 1600),
  },
  'one hand-picked': { tested: (name) => last(goodFor(name), { origin: 'hand-picked' }) },
  'one field return': { tested: (name) => last(goodFor(name), { origin: 'field return' }) },
  'one loaded before': { tested: (name) => last(goodFor(name), { specimen: '0401' }) },
  'one invalid': {
    tested: (name) => last(goodFor(name), { validity: { ...validBy('invalid'), reason: 'sensor fault' } }),
  },
  'one void': { tested: (name) => last(goodFor(name), { validity: validBy('void') }) },
  'one waiting': { tested: (name) => last(goodFor(name), { validity: undefined }) },
  'one unread': {
    tested: (name) => goodFor(name).slice(0, -1),
    given: () => ({ unread: { after: 0, specimen: '0499' } }),
  },
  'staged, the first look': { tested: () => good, given: (name) => staged(name) },
  'staged, both looks': { tested: () => [...good, ...good], given: (name) => staged(name) },
} satisfies Record<string, Sample>;
type SampleName = keyof typeof SAMPLES;

function lower({ recorded, value }: Tested, by: number): Partial<Tested> {
  if (recorded?.kind !== 'atLeast' && recorded?.kind !== 'atMost') return { value: value - by };
  return { value: value - by, recorded: { kind: recorded.kind, value: value - by } };
}

function staged(name: Name): GivenLot {
  const looks = {
    looks: [
      { accept: 0, reject: 2 },
      { accept: 1, reject: 2 },
    ],
  };
  return {
    specimens: 10,
    line: { stages: [5, 5] },
    ...(name === 'count' ? { criteria: [{ ...CRITERIA.count, ...looks } as Criterion] } : {}),
  };
}

type Cell = ['met'] | ['not met' | 'not yet decidable' | 'not evaluated' | 'refused', string];
const waiting = (n: number): Cell => ['not yet decidable', `${n - 1} of ${n} planned valid runs make the claim`];
/** A run that is not in the claim leaves every criterion open, whatever the others are. */
const incomplete = (): Record<Name, Cell> => ({
  every: waiting(5),
  count: waiting(5),
  normal: waiting(5),
  lognormal: waiting(5),
  weibull: waiting(5),
  weakest: waiting(5),
  zero: waiting(5),
  raised: waiting(5),
  staircase: waiting(12),
  levels: waiting(12),
  mean: waiting(5),
});
const onceOnly: Cell = ['refused', 'may be looked at once only'];
const below: Cell = ['not met', 'the lower bound'];
const noVerdict: Cell = ['not evaluated', 'specimen 0405 has no verdict'];
const noValue: Cell = ['not evaluated', 'run R-5 of the claim gives no value'];
const noMean: Cell = ['not evaluated', 'so they have no mean'];

const EXPECTED: Record<SampleName, Record<Name, Cell>> = {
  complete: {
    every: ['met'],
    count: ['met'],
    normal: ['met'],
    lognormal: ['met'],
    weibull: ['met'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['met'],
    staircase: ['met'],
    levels: ['met'],
    mean: ['met'],
  },
  survivors: {
    every: ['met'],
    count: ['met'],
    normal: ['not evaluated', 'no specimen broke'],
    lognormal: ['not evaluated', 'no specimen broke'],
    weibull: ['not evaluated', 'no specimen broke'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['met'],
    staircase: ['not evaluated', 'no specimen broke'],
    levels: ['not evaluated', 'no specimen broke'],
    mean: noMean,
  },
  'ended at the last break': {
    every: ['met'],
    count: ['met'],
    normal: below,
    lognormal: below,
    weibull: ['met'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['met'],
    staircase: ['not evaluated', 'the levels part what broke from what held'],
    levels: ['not evaluated', 'the levels part what broke from what held'],
    mean: noMean,
  },
  'another mode on a sound part': {
    every: ['met'],
    count: ['met'],
    normal: below,
    lognormal: below,
    weibull: ['met'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['not evaluated', 'the raised load changed how specimens fail: BT-OFF'],
    staircase: ['met'],
    levels: ['met'],
    mean: noMean,
  },
  'one fails': {
    every: ['not met', '1 specimen of the claim (0405) does not conform'],
    count: ['met'],
    normal: below,
    lognormal: below,
    weibull: ['met'],
    weakest: below,
    zero: ['not met', 'none may fail, and 1 specimen of the claim (0405)'],
    raised: ['not met', 'none may fail at 1 650 kPa, and 1 specimen (0405) does'],
    staircase: ['not met', 'the lower limit of that load'],
    levels: ['not met', 'the lower limit of that load'],
    mean: ['met'],
  },
  'one stopped short': {
    every: noVerdict,
    count: ['met'],
    normal: ['met'],
    lognormal: ['met'],
    weibull: ['met'],
    weakest: below,
    zero: noVerdict,
    raised: ['not evaluated', 'specimen 0405 is not known to hold 1 650 kPa'],
    staircase: ['not evaluated', 'the staircase was left at specimen 0412'],
    levels: ['not evaluated', 'specimen 0412 was struck at 1 400 kPa, which is none of the levels planned'],
    mean: noMean,
  },
  'one not examined': {
    every: noVerdict,
    count: ['met'],
    normal: noValue,
    lognormal: noValue,
    weibull: noValue,
    weakest: noValue,
    zero: noVerdict,
    raised: ['not evaluated', 'specimen 0405 is not known to hold'],
    staircase: ['not evaluated', 'run R-12 of the claim gives no value'],
    levels: ['not evaluated', 'run R-12 of the claim gives no value'],
    mean: noValue,
  },
  'too few': incomplete(),
  'all equal': {
    every: ['met'],
    count: ['met'],
    normal: ['not evaluated', 'all strengths are the same number'],
    lognormal: ['not evaluated', 'all strengths are the same number'],
    weibull: ['not evaluated', 'no failure lies strictly below'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['met'],
    staircase: ['not evaluated', 'the staircase was left at'],
    levels: ['not evaluated', 'all specimens were struck at one level'],
    mean: ['not evaluated', 'all values are the same number'],
  },
  'one outlier': {
    every: ['met'],
    count: ['met'],
    normal: below,
    lognormal: below,
    weibull: ['met'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['not met', 'none may fail at 1 650 kPa, and 1 specimen (0405) does'],
    staircase: ['not evaluated', 'the staircase was left at specimen 0412'],
    levels: ['not evaluated', 'which is none of the levels planned'],
    mean: ['met'],
  },
  'one hand-picked': incomplete(),
  'one field return': incomplete(),
  'one loaded before': incomplete(),
  'one invalid': incomplete(),
  'one void': incomplete(),
  'one waiting': incomplete(),
  'one unread': incomplete(),
  'staged, the first look': {
    every: ['met'],
    count: ['met'],
    normal: ['not yet decidable', '5 of 10 planned valid runs make the claim'],
    lognormal: ['met'],
    weibull: ['met'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['met'],
    staircase: onceOnly,
    levels: onceOnly,
    mean: onceOnly,
  },
  'staged, both looks': {
    every: ['met'],
    count: ['met'],
    normal: ['met'],
    lognormal: ['met'],
    weibull: ['met'],
    weakest: ['met'],
    zero: ['met'],
    raised: ['met'],
    staircase: onceOnly,
    levels: onceOnly,
    mean: onceOnly,
  },
};

describe('every criterion against every kind of sample', () => {
  it('has an entry for every kind of criterion and every distribution', () => {
    const known = NAMES.map((name) => CRITERIA[name] as Criterion);
    expect([...new Set(known.map(({ kind }) => kind))].sort()).toEqual(
      Criterion.options.map(({ shape }) => shape.kind.value).sort(),
    );
    expect(known.flatMap((one) => (one.kind === 'tolerance bound' ? [one.distribution] : [])).sort()).toEqual(
      [...Distribution.options].sort(),
    );
  });

  const cells = (Object.keys(SAMPLES) as SampleName[]).flatMap((sample) =>
    NAMES.map((name) => [sample, name] as const),
  );
  it.each(cells)('%s: %s', (sample, name) => {
    const [outcome, reason] = EXPECTED[sample]?.[name] ?? [];
    expect(outcome, `no entry for ${name} on ${sample}`).toBeTruthy();
    const { tested, given }: Sample = SAMPLES[sample];
    const lot = {
      criteria: [CRITERIA[name] as Criterion],
      specimens: struck(name) ? 12 : 5,
      ...given?.(name),
    };
    if (outcome === 'refused') {
      const plan = Plan.safeParse(planOf({ limits: [internalLimit(1500)], ...lot }));
      expect(plan.error?.issues.map(({ message }) => message).join()).toContain(reason);
      return;
    }
    const result = judged(tested(name), lot);
    const answer = result.lines[0]?.criteria[0];
    expect({ outcome: answer?.outcome, because: answer?.because }).toEqual({
      outcome,
      because: reason === undefined ? undefined : expect.stringContaining(reason),
    });
    expect(answer?.steps.map(({ question }) => question)).toContain('Which runs make the claim?');
    if (outcome === 'not evaluated' || outcome === 'not yet decidable') expect(answer?.possibleIf).toBeTruthy();
    expect(result.outcome).toBe(
      outcome === 'met' ? 'meets the plan' : outcome === 'not met' ? 'does not meet the plan' : 'undecided',
    );
  });
});
