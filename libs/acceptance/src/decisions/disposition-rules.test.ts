import type { Concession, LotResult, RunJudgement, Verdict } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { externalLimit, internalLimit, planOf } from '../fixtures/invented-lot.js';
import { attemptsOf } from './attempts.js';
import { concessionProblem } from './concession-problem.js';
import { blockersOf, type CaseOfLot, type GivenConcession, outcomesOf } from './disposition-rules.js';

// The rules are the house's own; every case of each is walked.

const INTERNAL = { limit: 'BP-INT', revision: 2 };
const EXTERNAL = { limit: 'BP-EXT', revision: 2 };

function verdict(limit: typeof INTERNAL, outcome: Verdict['outcome']): Verdict {
  return {
    limit,
    characteristic: 'burstPressure',
    outcome,
    external: limit === EXTERNAL,
    unit: 'kPa',
    limitValue: { lower: 1500 },
    acceptance: { lower: 1500 },
    guardBand: 0,
    sentence: '',
  };
}

function judged(run: string, ...verdicts: Verdict[]): RunJudgement {
  return { run, specimen: `s-${run}`, planLine: 'burst', validity: 'valid', results: [], verdicts };
}

function resultWith(outcome: LotResult['outcome'], inClaim: string[], notMet: (typeof INTERNAL)[] = []): LotResult {
  const counts = { runs: 0, valid: 0, withDeviation: 0, invalid: 1, notDecided: 0, void: 0, inClaim: inClaim.length };
  const none = { notEvaluated: { because: 'none', possibleIf: 'none' } };
  return {
    lot: 'L1',
    plan: { plan: 'P-DUNLIN', revision: 1 },
    outcome,
    sentence: 'It is so.',
    notes: [],
    software: 'test',
    lines: [
      {
        line: 'burst',
        characteristic: 'burstPressure',
        title: 'Burst pressure',
        unit: 'kPa',
        planned: 2,
        counts,
        entries: inClaim.map((run) => ({ run, specimen: `s-${run}`, inClaim: true, because: '' })),
        weibull: none,
        summary: none,
        outcome,
        criteria: notMet.map((limit) => ({
          criterion: `on ${limit.limit}`,
          kind: 'every specimen',
          statement: '',
          outcome: 'not met',
          limit,
          external: limit === EXTERNAL,
          unit: 'kPa',
          limitValue: 1500,
          numbers: {},
          steps: [],
        })),
      },
    ],
  };
}

const granted = (limit?: typeof INTERNAL, change: Partial<GivenConcession> = {}): GivenConcession => ({
  number: 1,
  state: 'granted',
  expired: false,
  limit,
  ...change,
});

const possible = (result: LotResult, judgements: RunJudgement[], concessions: GivenConcession[] = []) =>
  outcomesOf(result, judgements, concessions).flatMap((one) => (one.possible ? one.outcome : []));

describe('which outcomes can a lot be given?', () => {
  const meets = resultWith('meets the plan', ['1']);
  const not = (...limits: (typeof INTERNAL)[]) => resultWith('does not meet the plan', ['1'], limits);
  const holds = [judged('1', verdict(INTERNAL, 'conforms'), verdict(EXTERNAL, 'conforms'))];
  const failsInternal = [judged('1', verdict(INTERNAL, 'does not conform'), verdict(EXTERNAL, 'conforms'))];
  const failsExternal = [judged('1', verdict(INTERNAL, 'conforms'), verdict(EXTERNAL, 'does not conform'))];
  const doubtful = [judged('1', verdict(INTERNAL, 'does not conform conditionally'), verdict(EXTERNAL, 'conforms'))];

  it.each<[string, LotResult, RunJudgement[], GivenConcession[], string[]]>([
    ['meets, all hold', meets, holds, [], ['accepted', 'not accepted']],
    ['meets, all hold, needless concession', meets, holds, [granted(INTERNAL)], ['accepted', 'not accepted']],
    ['meets, internal verdict failed', meets, failsInternal, [], ['not accepted']],
    ['the same, granted', meets, failsInternal, [granted(INTERNAL)], ['accepted on concession', 'not accepted']],
    ['the same, only asked for', meets, failsInternal, [granted(INTERNAL, { state: 'requested' })], ['not accepted']],
    ['the same, refused', meets, failsInternal, [granted(INTERNAL, { state: 'refused' })], ['not accepted']],
    ['the same, taken back', meets, failsInternal, [granted(INTERNAL, { state: 'withdrawn' })], ['not accepted']],
    ['the same, over', meets, failsInternal, [granted(INTERNAL, { expired: true })], ['not accepted']],
    ['the same, for another limit', meets, failsInternal, [granted(EXTERNAL)], ['not accepted']],
    ['the same, for another revision', meets, failsInternal, [granted({ ...INTERNAL, revision: 1 })], ['not accepted']],
    ['the same, for no limit', meets, failsInternal, [granted()], ['not accepted']],
    ['conditional failure counts', meets, doubtful, [], ['not accepted']],
    ['meets, external verdict failed', meets, failsExternal, [granted(EXTERNAL), granted(INTERNAL)], ['not accepted']],
    ['internal criterion not met', not(INTERNAL), holds, [], ['not accepted']],
    ['the same, granted', not(INTERNAL), holds, [granted(INTERNAL)], ['accepted on concession', 'not accepted']],
    ['external criterion not met', not(EXTERNAL), holds, [granted(EXTERNAL)], ['not accepted']],
    ['both not met', not(INTERNAL, EXTERNAL), holds, [granted(INTERNAL), granted(EXTERNAL)], ['not accepted']],
  ])('%s', (_, result, judgements, concessions, expected) => {
    expect(possible(result, judgements, concessions)).toEqual(expected);
  });

  it('a concession needs two deciders, and what cannot be says why', () => {
    const offered = outcomesOf(meets, failsExternal, []);
    expect(outcomesOf(meets, failsInternal, [granted(INTERNAL)])[1]).toMatchObject({ possible: true, deciders: 2 });
    expect(offered[1]?.because).toContain('never conceded');
    expect(offered[0]?.because).toContain('BP-EXT rev. 2');
  });
});

describe('what keeps a lot from being disposed of?', () => {
  const clear: CaseOfLot = {
    evaluation: { number: 4, outcome: 'meets the plan', sentence: 'It is so.' },
    upToDate: true,
    runs: [
      { run: '1', validity: 'valid', reviewed: true, unplanned: false, authorised: false },
      { run: '2', validity: 'invalid', reviewed: true, unplanned: false, authorised: false },
      { run: '3', validity: 'void', reviewed: false, unplanned: false, authorised: false },
      { run: '4', validity: 'valid', reviewed: true, unplanned: true, authorised: true },
    ],
    openNonconformities: [],
    openSafetyFlags: [],
  };
  const run = (change: object) => ({ ...clear.runs[0], ...change }) as CaseOfLot['runs'][number];

  it('nothing, where all is there', () => expect(blockersOf(clear)).toEqual([]));

  it.each<[string, Partial<CaseOfLot>, string]>([
    ['no evaluation', { evaluation: undefined }, 'never evaluated'],
    ['undecided', { evaluation: { number: 4, outcome: 'undecided', sentence: 'B is missing.' } }, 'B is missing.'],
    ['records moved on', { upToDate: false }, 'does not rest on the records as they are now'],
    ['validity open', { runs: [run({ validity: 'not decided' })] }, 'validity of run 1 is not decided'],
    ['no review', { runs: [run({ reviewed: false })] }, 'Run 1 is not reviewed'],
    ['an invalid run without review', { runs: [run({ validity: 'invalid', reviewed: false })] }, 'not reviewed'],
    ['testing on', { runs: [run({ unplanned: true })] }, 'Neither a stage of the plan nor an authorised retest'],
    ['open nonconformity', { openNonconformities: [7] }, 'Nonconformity 7 is open'],
    ['open safety flag', { openSafetyFlags: [3] }, 'Product-safety flag 3 is open'],
  ])('%s', (_, change, what) => {
    const blockers = blockersOf({ ...clear, ...change });
    expect(blockers).toHaveLength(1);
    expect(blockers[0]?.what).toContain(what);
    expect(blockers[0]?.action).not.toBe('');
  });

  it('all of it at once, each said', () => {
    expect(
      blockersOf({
        evaluation: { number: 4, outcome: 'undecided', sentence: 'So.' },
        upToDate: false,
        runs: [run({ validity: 'not decided' }), run({ reviewed: false }), run({ unplanned: true })],
        openNonconformities: [7, 8],
        openSafetyFlags: [1, 2],
      }),
    ).toHaveLength(7);
  });
});

describe('attempts', () => {
  const runs = (...keys: string[]) =>
    keys.map((run) => ({ run, specimen: `s-${run}`, planLine: 'burst', validity: { validity: 'valid' } }) as never);
  const pass = (run: string) => judged(run, verdict(EXTERNAL, 'conforms'));
  const fail = (run: string) => judged(run, verdict(EXTERNAL, 'does not conform'));
  const result = resultWith('does not meet the plan', ['1', '2']);

  it('a valid failure followed by an unplanned pass raises a mark that names both', () => {
    const { marks, lines } = attemptsOf(result, runs('1', '2', '3'), [pass('1'), fail('2'), pass('3')]);
    expect(marks).toHaveLength(1);
    expect(marks[0]).toMatch(/valid run 2 did not conform.*\(3\).*The failure stands/);
    expect(lines[0]).toMatchObject({ runs: 3, valid: 3, inClaim: 2, planned: 2, unplanned: ['3'] });
  });

  it.each([
    ['a planned pass after it', ['1', '2'], [fail('1'), pass('2')]],
    ['an unplanned failure after it', ['1', '2', '3'], [fail('1'), pass('2'), fail('3')]],
    ['an unplanned pass before it', ['3', '1', '2'], [pass('3'), pass('1'), fail('2')]],
    ['no failure', ['1', '2', '3'], [pass('1'), pass('2'), pass('3')]],
  ])('%s raises none', (_, keys, judgements) => {
    expect(attemptsOf(result, runs(...keys), judgements).marks).toEqual([]);
  });

  it('counts the runs of a specimen, without those entered by mistake', () => {
    const again = (run: string, validity: string) =>
      ({ run, specimen: 's', planLine: 'burst', validity: { validity } }) as never;
    const counted = [again('1', 'invalid'), again('2', 'void'), again('3', 'valid')];
    expect(attemptsOf(result, counted, []).repeated).toEqual([{ specimen: 's', runs: ['1', '3'] }]);
  });
});

describe('may a concession be asked for?', () => {
  const limits = [internalLimit(1750), externalLimit(1500)];
  const bundle = { plan: planOf({ limits }), limits, lot: { size: 50 } } as never;
  const wanted: Concession = {
    kind: 'concession',
    lot: 'L1',
    limit: INTERNAL,
    departure: 'below',
    bounds: { quantity: 50 },
    until: '2031-06-01',
    reason: 'wanted',
    risk: 'small',
  };
  const failed = {
    result: resultWith('meets the plan', ['1']),
    judgements: [judged('1', verdict(INTERNAL, 'does not conform'))],
  };
  const held = { ...failed, judgements: [judged('1', verdict(INTERNAL, 'conforms'))] };
  const notMet = { result: resultWith('does not meet the plan', ['1'], [INTERNAL]), judgements: held.judgements };

  it.each<[string, Partial<Concession>, typeof failed | undefined, string | undefined]>([
    ['of a failed internal limit', {}, failed, undefined],
    ['of an internal criterion not met', {}, notMet, undefined],
    ['on its last day', { until: '2031-05-31' }, failed, undefined],
    ['of a limit that holds', {}, held, 'nothing to concede'],
    ['before any evaluation', {}, undefined, 'nothing to concede'],
    ['of an external limit', { limit: EXTERNAL }, failed, 'never conceded'],
    ['of a limit the plan does not name', { limit: { limit: 'OTHER', revision: 1 } }, failed, 'no limit OTHER rev. 1'],
    ['of another revision', { limit: { ...INTERNAL, revision: 1 } }, failed, 'no limit BP-INT rev. 1'],
    ['without bound', { bounds: { quantity: 51 } }, failed, 'has 50 units'],
    ['over already', { until: '2031-05-30' }, failed, 'is over'],
    ['a permit beforehand', { kind: 'deviation permit' }, held, undefined],
    ['a permit for something else', { kind: 'deviation permit', limit: undefined }, failed, undefined],
    ['a permit afterwards', { kind: 'deviation permit' }, failed, 'a permit is given before'],
    ['a permit from an external limit', { kind: 'deviation permit', limit: EXTERNAL }, held, 'never conceded'],
  ])('%s', (_, change, evaluation, why) => {
    const concession = { ...wanted, ...change } as Concession;
    const problem = concessionProblem({ concession, bundle, evaluation, today: '2031-05-31' });
    if (why === undefined) expect(problem).toBeUndefined();
    else expect(problem?.detail).toContain(why);
  });
});
