import { type LotBundle, type Plan, type Reading, Refusal } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { bundleOf } from '../../fixtures/invented-bundle.js';
import { burstMethod, externalLimit, internalLimit, planOf, readingOf } from '../../fixtures/invented-lot.js';
import { plainly } from '../../fixtures/plainly.js';
import { judgeRun } from '../../runs/judge-run.js';
import { judgeLot } from '../judge-lot.js';
import type { WhatIfChange } from './changed-bundle.js';
import { whatIf } from './what-if.js';

const strengths = [1700, 1750, 1800, 1850, 1900];
const bundle = bundleOf();
const readings = new Map<string, Reading>(
  bundle.runs.map((run, index) => [run.run, readingOf(run, { kind: 'exact', value: strengths[index] ?? 0 })]),
);
const asked = (change: WhatIfChange, given: LotBundle = bundle) => plainly(whatIf(given, change, { readings }));

/** The same lot judged outright, the limit or plan being what the what-if asks about. */
function outright(plan: Plan, limits: LotBundle['limits']) {
  const runs = bundle.runs.map((run) => {
    const reading = readings.get(run.run) as Reading;
    return { run, reading, judgement: judgeRun({ plan, method: burstMethod, limits, reading, run }) };
  });
  return judgeLot({ ...bundle, plan, limits, runs });
}

function problemsOf(change: WhatIfChange) {
  try {
    whatIf(bundle, change, { readings });
  } catch (error) {
    if (error instanceof Refusal) return error.problems.map(({ code, pointer, detail }) => ({ code, pointer, detail }));
  }
  return [];
}

describe('what if a limit had another value', () => {
  const changed = asked({ limits: [{ limit: 'BP-INT', revision: 2, value: 1720 }] });

  it('is judged as a limit of that value would be', () => {
    const limits = [internalLimit(1720), externalLimit(1300)];
    const lot = outright(planOf({ limits }), limits);
    expect(outright(bundle.plan, bundle.limits).outcome).toBe('meets the plan');
    expect(lot.outcome).toBe('does not meet the plan');
    expect(changed.result.outcome).toBe(lot.outcome);
    expect(changed.result.lines[0]?.criteria.map(({ outcome, numbers }) => [outcome, numbers])).toEqual(
      lot.lines[0]?.criteria.map(({ outcome, numbers }) => [outcome, numbers]),
    );
    expect(changed.judgements.map(({ verdicts }) => verdicts.map(({ outcome, margin }) => [outcome, margin]))).toEqual(
      strengths.map((value) => [
        [value >= 1720 ? 'conforms' : 'does not conform', value - 1720],
        ['conforms', value - 1300],
      ]),
    );
  });

  it('says so in its sentence, in data, and in every name of the limit', () => {
    expect(changed.result.sentence).toMatch(/^What-if, nothing is decided by it: Lot L-0031 does not meet plan/);
    expect(changed.result.whatIf.changed).toEqual([
      'limit BP-INT rev. 2: at least 1 720 kPa in place of at least 1 500 kPa',
    ]);
    expect(changed.judgements[0]?.verdicts[0]?.sentence).toContain('BP-INT-what-if rev. 2');
    expect(JSON.stringify(changed)).not.toContain('(BP-INT rev. 2)');
  });

  it('leaves the records as they were', () => {
    expect(bundle).toEqual(bundleOf());
  });
});

describe('what if another plan revision held', () => {
  const stricter: Plan = { ...planOf({ limits: bundle.limits, specimens: 6 }), revision: 2, approvedOn: '2031-06-01' };

  it('is judged under it, though it was approved after the runs', () => {
    const { result } = asked({ plan: { plan: stricter } });
    expect(result.plan).toEqual({ plan: 'P-DUNLIN', revision: 2 });
    expect(result.outcome).toBe('undecided');
    expect(result.lines[0]?.criteria[0]?.because).toBe('5 of 6 planned valid runs make the claim');
    expect(result.whatIf.changed).toEqual([
      'plan P-DUNLIN rev. 2 in place of P-DUNLIN rev. 1',
      'now in line burst: 6 specimens, by BURST rev. 3, looked at once, when all are tested.',
      'no longer in line burst: 5 specimens, by BURST rev. 3, looked at once, when all are tested.',
    ]);
  });

  it('takes the limits that only it names', () => {
    const limit = { ...internalLimit(1880), revision: 3, inForceFrom: '2031-05-01' };
    const { result } = asked({ plan: { plan: { ...planOf({ limits: [limit] }), revision: 2 }, limits: [limit] } });
    expect(result.outcome).toBe('does not meet the plan');
    expect(result.whatIf.changed).toContain(
      'now in line burst: Limit: at least 1 880 kPa (BP-INT rev. 3), Burst pressure.',
    );
  });
});

describe('a what-if that cannot be asked', () => {
  it.each<[string, WhatIfChange, object]>([
    [
      'a limit that the plan does not name',
      { limits: [{ limit: 'X', revision: 1, value: 1 }] },
      { code: 'body.not-found', pointer: '/limits/0', detail: expect.stringContaining('BP-INT rev. 2, BP-EXT rev. 2') },
    ],
    [
      'two numbers for one',
      { limits: [{ limit: 'BP-INT', revision: 2, lower: 1 }] },
      { code: 'body.range', pointer: '/limits/0', detail: expect.stringContaining('in kPa') },
    ],
    [
      'the same value',
      { limits: [{ limit: 'BP-INT', revision: 2, value: 1500 }] },
      { code: 'body.range', pointer: '/limits/0/value', detail: expect.stringContaining('1500 kPa as it is') },
    ],
    [
      'the same plan',
      { plan: { plan: bundle.plan } },
      { code: 'body.range', pointer: '', detail: expect.stringContaining('nothing would be different') },
    ],
    [
      'a plan without the line of the runs',
      { plan: { plan: planOf({ limits: bundle.limits, line: { line: 'other' } }) } },
      { code: 'meta.unknown', pointer: '/runs/0/planLine', detail: expect.stringContaining('has other') },
    ],
  ])('%s', (_, change, problem) => {
    expect(problemsOf(change)[0]).toEqual(problem);
  });

  it('keeps the place of a run without a reading', () => {
    const some = new Map([...readings].slice(1));
    const { result, refused } = whatIf(
      bundle,
      { limits: [{ limit: 'BP-INT', revision: 2, value: 1400 }] },
      { readings: some },
    );
    expect(refused.map(({ run }) => run.run)).toEqual(['R-1']);
    expect(result.outcome).toBe('undecided');
  });
});
