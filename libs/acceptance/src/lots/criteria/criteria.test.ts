import type { Criterion, Limit } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { internalLimit } from '../../fixtures/invented-lot.js';
import { bound, complete, every, judged, type Tested, tyreOff, zero } from '../../fixtures/judged-lot.js';

describe('criteria beside the table of every cell', () => {
  const oneTyreOff = complete.map((one, index) => (index === 2 ? { ...one, examination: tyreOff } : one));
  const oneFailing = [...complete.slice(0, 4), { value: 1400 }];
  const tooFew = complete.slice(0, 4);

  // n = 5 survivors show (1 - 0.9)^(1/5) = 0.631 at 90 %: enough for 60 %, not for 90 % (Clopper and Pearson 1934).
  // Bounds by hand: mean 1800, s 79.06, k(5; 0.9, 0.95) = 3.4066: 1530.7 kPa.
  it.each<[string, Tested[], Criterion, string, string | undefined]>([
    ['every, one failing and too few', oneFailing.slice(3), every, 'not met', '(0402) does not conform'],
    [
      'normal bound below the limit',
      complete,
      bound('normal', 0.99),
      'not met',
      'lies below the limit of at least 1 500 kPa (BP-INT rev. 2)',
    ],
    ['Weibull bound below the limit', complete, bound('weibull', 0.99), 'not met', 'the lower bound'],
    ['Weibull bound, a tyre off in the middle', oneTyreOff, bound('weibull'), 'not met', 'the lower bound'],
    [
      'Weibull bound, a value of 0',
      [...tooFew, { value: 0 }],
      bound('weibull'),
      'not evaluated',
      'a value of 0 or less',
    ],
    [
      'order statistic, too few for the claim',
      complete,
      bound('distribution-free'),
      'not evaluated',
      'not even the weakest is a bound',
    ],
    [
      'zero failures, planned too few',
      complete,
      zero(0.9, 0.9),
      'not met',
      '5 survivors cannot show it: 22 are needed',
    ],
    [
      'zero failures, planned too few and too few yet',
      tooFew,
      zero(0.9, 0.9),
      'not yet decidable',
      'too few for a claim that needs 22 survivors',
    ],
    ['zero failures, one failing and too few', oneFailing.slice(3), zero(0.6, 0.9), 'not met', 'none may fail'],
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
    const [answer] = judged(tooFew, { criteria: [bound('normal')] }).lines[0]?.criteria ?? [];
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

describe('counts and order statistics in a lot of so many units', () => {
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

  // The weakest of n is a bound where n survivors would show the claim: the same 18 of 40, and 29 of a process.
  it.each([
    [18, 'lot', 'met', 'lot'],
    [17, 'lot', 'not evaluated', undefined],
    [18, 'process', 'not evaluated', undefined],
    [29, 'process', 'met', 'process'],
  ] as const)('the weakest of %i from a %s as a bound: %s', (n, population, outcome, speaksOf) => {
    const tested = Array.from({ length: n }, (_, index) => ({ value: 1600 + index }));
    const criteria = [bound('distribution-free')];
    const [answer] = judged(tested, { specimens: n, population, criteria }).lines[0]?.criteria ?? [];
    expect(answer).toMatchObject({ outcome });
    if (speaksOf) expect(answer).toMatchObject({ bound: { value: 1600 }, numbers: { rank: 1, population: speaksOf } });
  });
});
