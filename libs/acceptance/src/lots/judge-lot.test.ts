import { type Criterion, type Examination, type Limit, type Specimen, type ValidityDecision } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  burstMethod,
  examined,
  externalLimit,
  internalLimit,
  lot,
  plainly,
  planOf,
  readingOf,
  runOf,
  specimenOf,
  validBy,
} from '../fixtures/invented-lot.js';
import { judgeRun } from '../runs/judge-run.js';
import { type UnreadRun } from './claim.js';
import { judgeLot } from './judge-lot.js';

interface Tested {
  value: number;
  specimen?: string;
  origin?: Specimen['origin'];
  examination?: Examination | undefined;
  validity?: ValidityDecision | undefined;
}

const broke = examined('something broke', ['BF-FLG'], 'not sound');
const tyreOff = examined('something broke', ['BT-OFF'], 'sound');
const survived = examined('rig limit reached', [], 'sound');
const complete: Tested[] = [1700, 1750, 1800, 1850, 1900].map((value) => ({ value }));

/** Specimens are numbered 0401, 0402, ... in the order given, unless a test names one. */
function judged(
  tested: Tested[],
  given: {
    limits?: Limit[];
    criteria?: Criterion[];
    specimens?: number;
    population?: 'process' | 'lot';
    lotSize?: number;
    unread?: { after: number; specimen: string };
    sampled?: boolean;
  } = {},
) {
  const limits = given.limits ?? [internalLimit(1500)];
  const plan = planOf({ ...given, limits });
  const named = tested.map((one, index) => ({ specimen: `04${String(index + 1).padStart(2, '0')}`, ...one }));
  const runs: Parameters<typeof judgeLot>[0]['runs'][number][] = named.map((one, index) => {
    const run = runOf(`R-${index + 1}`, one.specimen, { examination: broke, validity: validBy('valid'), ...one });
    const reading = readingOf(run, { kind: 'exact', value: one.value });
    return { run, reading, judgement: judgeRun({ plan, method: burstMethod, limits, reading, run }) };
  });
  if (given.unread) {
    const unread: UnreadRun = {
      run: runOf('R-X', given.unread.specimen),
      unread: [{ code: 'file.truncated', detail: 'R-X.csv, line 900: the last line has too few cells.' }],
    };
    runs.splice(given.unread.after, 0, unread);
  }
  const specimens = named.map(({ specimen, origin }) => specimenOf(specimen, origin));
  if (given.unread) specimens.push(specimenOf(given.unread.specimen));
  const { sampling, ...unsampled } = lot;
  return plainly(
    judgeLot({
      plan,
      lot: { ...(given.sampled === false ? unsampled : { ...unsampled, sampling }), size: given.lotSize ?? lot.size },
      methods: [burstMethod],
      limits,
      specimens,
      runs,
    }),
  );
}

const ref = { limit: 'BP-INT', revision: 2 };
const every: Criterion = { kind: 'every specimen', criterion: 'every', limit: ref };
const bound = (
  distribution: 'normal' | 'lognormal' | 'weibull' | 'distribution-free',
  coverage = 0.9,
  confidence = 0.95,
): Criterion => ({ kind: 'tolerance bound', criterion: 'bound', limit: ref, distribution, coverage, confidence });
const zero = (reliability: number, confidence: number): Criterion => ({
  kind: 'zero failures',
  criterion: 'zero',
  limit: ref,
  reliability,
  confidence,
});

describe('every criterion against every kind of sample', () => {
  const oneTyreOff = complete.map((one, index) => (index === 2 ? { ...one, examination: tyreOff } : one));
  const typeII = [1700, 1750, 1800, 1800, 1800].map((value, index) => ({
    value,
    examination: index < 3 ? broke : survived,
  }));
  const oneFailing = [...complete.slice(0, 4), { value: 1400 }];
  const tooFew = complete.slice(0, 4);
  const heldBelow = [...complete.slice(0, 4), { value: 1400, examination: examined('stopped early', [], 'sound') }];
  const notExamined = [...complete.slice(0, 4), { value: 1900, examination: undefined }];
  const allEqual = complete.map(() => ({ value: 1800 }));
  const allHeld = complete.map((one) => ({ ...one, examination: survived }));

  // n = 5 survivors show (1 - 0.9)^(1/5) = 0.631 at 90 %: enough for 60 %, not for 90 % (Clopper and Pearson 1934).
  // Bounds by hand: mean 1800, s 79.06, k(5; 0.9, 0.95) = 3.4066: 1530.7 kPa.
  it.each<[string, Tested[], Criterion, string, string | undefined]>([
    ['every, complete', complete, every, 'met', undefined],
    ['every, a tyre off a sound rim above the limit', oneTyreOff, every, 'met', undefined],
    ['every, survivors at the rig limit', allHeld, every, 'met', undefined],
    ['every, too few', tooFew, every, 'not yet decidable', '4 of 5 planned valid runs make the claim'],
    ['every, one failing', oneFailing, every, 'not met', '1 specimen of the claim (0405) does not conform'],
    ['every, one failing and too few', oneFailing.slice(3), every, 'not met', '(0402) does not conform'],
    [
      'every, stopped short of the limit',
      heldBelow,
      every,
      'not evaluated',
      'specimen 0405 has no verdict: the specimen held 1 400 kPa and did not break there',
    ],
    ['every, one not examined', notExamined, every, 'not evaluated', 'no examination of the specimen is recorded'],

    ['normal bound, complete', complete, bound('normal'), 'met', undefined],
    [
      'normal bound below the limit',
      complete,
      bound('normal', 0.99),
      'not met',
      'lies below the limit of at least 1 500 kPa (BP-INT rev. 2)',
    ],
    ['normal bound, a tyre off', oneTyreOff, bound('normal'), 'not evaluated', 'exact for complete samples only'],
    ['normal bound, too few', tooFew, bound('normal'), 'not yet decidable', '4 of 5 planned'],
    ['normal bound, one failing', oneFailing, bound('normal'), 'not met', 'the lower bound'],
    [
      'normal bound, one not examined',
      notExamined,
      bound('normal'),
      'not evaluated',
      'run R-5 of the claim gives no value',
    ],
    ['normal bound, all equal', allEqual, bound('normal'), 'not evaluated', 'all strengths are the same number'],
    ['lognormal bound, complete', complete, bound('lognormal'), 'met', undefined],
    ['Weibull bound, complete', complete, bound('weibull', 0.5, 0.5), 'met', undefined],
    ['Weibull bound below the limit', complete, bound('weibull', 0.99), 'not met', 'the lower bound'],
    ['Weibull bound, ended at the last break', typeII, bound('weibull', 0.5, 0.5), 'met', undefined],
    [
      'Weibull bound, a tyre off in the middle',
      oneTyreOff,
      bound('weibull'),
      'not evaluated',
      'withdrawn at values other than the last break',
    ],
    ['Weibull bound, nothing broke', allHeld, bound('weibull'), 'not evaluated', 'no specimen broke'],
    ['Weibull bound, all equal', allEqual, bound('weibull'), 'not evaluated', 'no failure lies strictly below'],
    [
      'Weibull bound, a value of 0',
      [...tooFew, { value: 0 }],
      bound('weibull'),
      'not evaluated',
      'a value of 0 or less',
    ],
    ['order statistic, enough for the claim', complete, bound('distribution-free', 0.5, 0.9), 'met', undefined],
    [
      'order statistic, too few for the claim',
      complete,
      bound('distribution-free'),
      'not evaluated',
      'not even the weakest is a bound',
    ],
    ['order statistic, a tyre off', oneTyreOff, bound('distribution-free', 0.5, 0.9), 'met', undefined],

    ['zero failures, enough', complete, zero(0.6, 0.9), 'met', undefined],
    [
      'zero failures, planned too few',
      complete,
      zero(0.9, 0.9),
      'not met',
      '5 survivors cannot show it: 22 are needed',
    ],
    ['zero failures, too few yet', tooFew, zero(0.6, 0.9), 'not yet decidable', '4 of 5 planned'],
    [
      'zero failures, planned too few and too few yet',
      tooFew,
      zero(0.9, 0.9),
      'not yet decidable',
      'too few for a claim that needs 22 survivors',
    ],
    [
      'zero failures, one failing',
      oneFailing,
      zero(0.6, 0.9),
      'not met',
      'none may fail, and 1 specimen of the claim (0405)',
    ],
    ['zero failures, one failing and too few', oneFailing.slice(3), zero(0.6, 0.9), 'not met', 'none may fail'],
    ['zero failures, survivors', allHeld, zero(0.6, 0.9), 'met', undefined],
    ['zero failures, stopped short', heldBelow, zero(0.6, 0.9), 'not evaluated', 'specimen 0405 has no verdict'],
  ])('%s', (_, tested, criterion, outcome, because) => {
    const result = judged(tested, { criteria: [criterion] });
    const [answer] = result.lines[0]?.criteria ?? [];
    expect(answer).toMatchObject({
      outcome,
      steps: expect.arrayContaining([expect.objectContaining({ question: 'Which runs make the claim?' })]),
    });
    if (because === undefined) expect(answer).not.toHaveProperty('because');
    else expect(answer?.because).toContain(because);
    if (outcome === 'not evaluated' || outcome === 'not yet decidable') expect(answer?.possibleIf).toBeTruthy();
    expect(result.outcome).toBe(
      outcome === 'met' ? 'meets the plan' : outcome === 'not met' ? 'does not meet the plan' : 'undecided',
    );
  });

  it('gives the normal bound of the handbook factor', () => {
    const [answer] = judged(complete, { criteria: [bound('normal')] }).lines[0]?.criteria ?? [];
    // One-sided normal factor, n = 5, 90 % with 95 %: k = 3.406633263, R 4.2.2 qt(0.95, 4, qnorm(0.9)*sqrt(5))/sqrt(5)
    // (ISO 16269-6:2014 tabulates the same quantity).
    expect(answer?.bound).toMatchObject({
      coverage: 0.9,
      confidence: 0.95,
      technique: 'noncentral-t',
      achievedConfidence: 0.95,
    });
    expect(answer?.bound?.value).toBeCloseTo(1800 - 3.406633263 * Math.sqrt(6250), 5);
    expect(answer?.steps.map(({ answer }) => answer).join(' ')).toContain(
      'At least 90 % of the process holds 1 530 kPa or more, with 95 % confidence (5 specimens, 5 broken).',
    );
  });

  it('never looks at a bound before the planned number is complete', () => {
    const [answer] = judged(tooFewOf(complete), { criteria: [bound('normal')] }).lines[0]?.criteria ?? [];
    expect(answer).not.toHaveProperty('bound');
  });

  it('sets the bound with every mode counted as a failure beside the claim', () => {
    const [answer] = judged(oneTyreOff, { criteria: [bound('distribution-free', 0.5, 0.9)] }).lines[0]?.criteria ?? [];
    expect(answer).toMatchObject({
      boundAllModes: { value: 1700 },
      numbers: { broken: 4, 'held without breaking': 1 },
    });
    const [whole] = judged(complete, { criteria: [bound('distribution-free', 0.5, 0.9)] }).lines[0]?.criteria ?? [];
    expect(whole).not.toHaveProperty('boundAllModes');
  });

  it('prints no bound below the smallest number of the method', () => {
    const two = { specimens: 2 };
    const result = judged(complete.slice(0, 2), { ...two, criteria: [bound('normal'), zero(0.3, 0.5)] });
    for (const answer of result.lines[0]?.criteria ?? [])
      expect(answer).toMatchObject({
        outcome: 'not evaluated',
        because: expect.stringContaining('fewer than 3 specimens'),
      });
    expect(result.lines[0]?.weibull).toMatchObject({
      notEvaluated: { because: expect.stringContaining('not estimable from 2 specimens') },
    });
  });

  it('gives no lower bound against an upper limit', () => {
    const upper: Limit = { ...internalLimit(2000), bound: 'at most', value: 2000 };
    const [answer] = judged(complete, { limits: [upper], criteria: [bound('normal')] }).lines[0]?.criteria ?? [];
    expect(answer).toMatchObject({
      outcome: 'not evaluated',
      because: expect.stringContaining('is no limit of that kind'),
    });
  });

  it('counts survivors by the decision rule, guard band included', () => {
    const guarded = internalLimit(1700, { rule: 'guarded', r: 1 });
    // 1700 kPa lies on the limit but below the acceptance limit of 1714 kPa.
    const [answer] = judged(complete, { limits: [guarded], criteria: [zero(0.6, 0.9)] }).lines[0]?.criteria ?? [];
    expect(answer).toMatchObject({ outcome: 'not met', because: expect.stringContaining('(0401)') });
  });
});

describe('zero failures in a lot of so many units', () => {
  const survivors = (n: number): Tested[] => Array.from({ length: n }, () => ({ value: 1800 }));

  // 90 % with 95 %: 29 for a process; 18 from a lot of 40, since C(35,18)/C(40,18) = 0.0400 and C(35,17)/C(40,17) = 0.0511
  // (hypergeometric, 5 bad of 40 the fewest that make the claim untrue).
  it.each([
    [29, 'process', 'met'],
    [28, 'process', 'not met'],
    [18, 'lot', 'met'],
    [17, 'lot', 'not met'],
  ] as const)('%i survivors of a %s: %s', (n, population, outcome) => {
    const result = judged(survivors(n), { specimens: n, population, criteria: [zero(0.9, 0.95)] });
    expect(result.lines[0]?.criteria[0]).toMatchObject({ outcome });
  });
});

describe('which runs make the claim', () => {
  const because = (result: ReturnType<typeof judged>, run: string) =>
    result.lines[0]?.entries.find((entry) => entry.run === run);

  it.each<[string, Tested, string]>([
    [
      'hand-picked',
      { value: 1800, origin: 'hand-picked' },
      'hand-picked: only specimens drawn at random speak for the lot',
    ],
    ['a field return', { value: 1800, origin: 'field return' }, 'field return: only specimens drawn at random'],
    ['suspect', { value: 1800, origin: 'suspect' }, 'suspect: only'],
    ['invalid', { value: 1800, validity: { ...validBy('invalid'), reason: 'sensor fault' } }, 'invalid: sensor fault'],
    ['void', { value: 1800, validity: validBy('void') }, 'void: the record was entered by mistake'],
    ['not decided', { value: 1800, validity: undefined }, 'its validity is not decided yet'],
    ['loaded before', { value: 1800, specimen: '0401' }, 'specimen 0401 was loaded before, in run R-1'],
  ])('leaves out a run that is %s, and shows why', (_, tested, reason) => {
    const result = judged([...complete.slice(0, 4), tested]);
    expect(because(result, 'R-5')).toMatchObject({ inClaim: false, because: expect.stringContaining(reason) });
    expect(result.lines[0]?.counts).toMatchObject({ runs: 5, inClaim: 4 });
    expect(result.outcome).toBe('undecided');
  });

  it('counts a run that is valid with deviation', () => {
    const result = judged([
      ...complete.slice(0, 4),
      { value: 1900, validity: { ...validBy('valid with deviation'), note: 'room at 29 °C' } },
    ]);
    expect(result.lines[0]?.counts).toMatchObject({ valid: 4, withDeviation: 1, inClaim: 5 });
    expect(result.notes).toContain('Valid with deviation, and counted: R-5 (room at 29 °C).');
  });

  it('never takes a run beyond the planned number, however good or bad', () => {
    const result = judged([...complete, { value: 2400 }, { value: 1400 }]);
    expect(because(result, 'R-6')).toMatchObject({ inClaim: false, because: 'beyond the 5 specimens planned' });
    expect(result.outcome).toBe('meets the plan');
    expect(result.notes).toEqual(
      expect.arrayContaining([
        expect.stringContaining('2 runs beyond the planned number (R-6, R-7)'),
        expect.stringContaining('Run R-7 (specimen 0407) is valid and does not conform'),
      ]),
    );
  });

  it('keeps the place of a run that is not decided, so that no later one is tested in its stead', () => {
    const result = judged([{ value: 1600, validity: undefined }, ...complete]);
    expect(because(result, 'R-6')).toMatchObject({ inClaim: false, because: 'beyond the 5 specimens planned' });
    expect(result.lines[0]?.criteria[0]).toMatchObject({
      outcome: 'not yet decidable',
      possibleIf: '1 run recorded already can be read and decided',
    });
  });

  it('keeps the place of a run whose file was refused', () => {
    const result = judged(complete, { unread: { after: 0, specimen: '0499' } });
    expect(because(result, 'R-X')).toMatchObject({
      inClaim: false,
      because: expect.stringContaining('its file was refused: R-X.csv, line 900'),
    });
    expect(because(result, 'R-5')).toMatchObject({ inClaim: false, because: 'beyond the 5 specimens planned' });
    expect(result.outcome).toBe('undecided');
    expect(result.notes.join(' ')).toContain(
      'Run R-X (specimen 0499) is not judged: its file was refused and is kept unread.',
    );
  });

  it('lets an invalid run be replaced by the next specimen drawn', () => {
    const invalid = { value: 900, validity: { ...validBy('invalid'), reason: 'wrong mounting' as const } };
    const result = judged([invalid, ...complete]);
    expect(result.outcome).toBe('meets the plan');
    expect(result.notes).toContain('1 of 6 runs is invalid: R-1 (wrong mounting).');
  });
});

describe('what a reader must know beside the numbers', () => {
  it('names a failed external limit, in the claim or not, and that it is never conceded', () => {
    const limits = [internalLimit(1500), externalLimit(1300)];
    const result = judged([...complete, { value: 1200, origin: 'hand-picked' }], { limits });
    expect(result.outcome).toBe('meets the plan');
    expect(result.notes[0]).toBe(
      'External limit failed: 1 specimen (0406) does not conform to the limit of at least 1 300 kPa (BP-EXT rev. 2), basis governing body. A failed external limit is never conceded in the claimed use.',
    );
    expect(result.notes).toEqual(
      expect.arrayContaining([
        'Not drawn at random, shown and left out of every claim: 0406 (hand-picked).',
        'Examples the lab has yet to confirm against its own copy of the source: BP-EXT rev. 2.',
      ]),
    );
  });

  it('states that modes are taken as independent where they were told apart', () => {
    const result = judged(complete.map((one, index) => (index === 4 ? { ...one, examination: tyreOff } : one)));
    expect(result.notes.join(' ')).toContain(
      'other modes (BT-OFF) on sound parts are counted as "at least"; this assumes',
    );
  });

  it('names runs counted as failures because the part was not found sound', () => {
    const doubtful = examined('something broke', ['BT-OFF'], 'not examined');
    const result = judged([...complete.slice(0, 4), { value: 1900, examination: doubtful }]);
    expect(result.notes.join(' ')).toContain('counted as failures of the part because it was not found sound: R-5');
    expect(result.notes.join(' ')).not.toContain('independently');
  });

  it('says so when the lab did not draw the specimens', () => {
    expect(judged(complete, { sampled: false }).notes.join(' ')).toContain('results apply to the sample as received');
    expect(judged(complete).notes.join(' ')).not.toContain('as received');
  });

  it('says that a fitted bound speaks of the process where the plan claims the lot', () => {
    const result = judged(complete, { population: 'lot', criteria: [bound('normal')] });
    expect(result.lines[0]?.criteria[0]?.statement).toContain('At least 90 % of the process holds');
    expect(result.notes.join(' ')).toContain('speaks of the process that made lot L-0031');
  });

  it('combines criteria by all and says in one sentence why', () => {
    const mixed = judged(complete, { criteria: [every, bound('normal', 0.99)] });
    expect(mixed.outcome).toBe('does not meet the plan');
    expect(mixed.sentence).toMatch(
      /^Lot L-0031 does not meet plan P-DUNLIN rev\. 1: criterion bound is not met: the lower bound, /,
    );
    expect(judged(complete, { criteria: [every, bound('weibull', 0.5, 0.5)] }).sentence).toBe(
      'Lot L-0031 meets plan P-DUNLIN rev. 1: all 2 criteria are met.',
    );
    expect(judged(complete.slice(1)).sentence).toBe(
      'Lot L-0031 is undecided under plan P-DUNLIN rev. 1: criterion every-rim is not yet decidable: 4 of 5 planned valid runs make the claim.',
    );
  });

  it('describes the claim by mean, scatter and Weibull fit, or says why not', () => {
    const [line] = judged(complete).lines;
    expect(line?.summary).toMatchObject({ n: 5, mean: 1800, min: 1700, max: 1900 });
    expect(line?.weibull).toMatchObject({ n: 5, failures: 5, shapeLimits: [expect.any(Number), expect.any(Number)] });
    const [censored] = judged(complete.map((one) => ({ ...one, examination: survived }))).lines;
    expect(censored?.summary).toMatchObject({ notEvaluated: { because: expect.stringContaining('5 of 5 values') } });
    expect(censored?.weibull).toMatchObject({
      notEvaluated: { because: expect.stringContaining('no specimen broke') },
    });
  });
});

function tooFewOf<T>(all: T[]): T[] {
  return all.slice(0, -1);
}
