import { type EarlierSample, notEvaluated } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { bundleOf } from '../fixtures/invented-bundle.js';
import { burstMethod, planOf, readingOf } from '../fixtures/invented-lot.js';
import { bound, complete, judged } from '../fixtures/judged-lot.js';
import { plainly } from '../fixtures/plainly.js';
import { judgeRun } from '../runs/judge-run.js';
import { checkBundle } from './check-bundle.js';
import { earlierSamplesOf } from './earlier-samples.js';
import { judgeLot } from './judge-lot.js';

const bundle = bundleOf();
const plan = planOf({ limits: bundle.limits, criteria: [bound('normal')] });
const [line] = plan.lines as [(typeof plan.lines)[number]];

/** A lot with these strengths, as an evaluation leaves it; one that is undefined could not be read off. */
function evaluated(strengths: (number | undefined)[]) {
  const runs = bundle.runs.slice(0, strengths.length).map((run, index) => {
    const value = strengths[index];
    const reading = readingOf(
      run,
      value === undefined ? notEvaluated('the sensor gave nothing', 'it is read') : { kind: 'exact', value },
    );
    return { run, reading, judgement: judgeRun({ plan, method: burstMethod, limits: bundle.limits, reading, run }) };
  });
  return {
    lot: 'L-0030',
    madeTo: '2031-01-10',
    plan,
    lines: judgeLot({ ...bundle, plan, runs }).lines,
    judgements: runs.map(({ judgement }) => judgement),
    evaluation: '7',
  };
}

describe('values of an earlier lot', () => {
  const given = evaluated([1700, 1750, 1800, 1850, 1900]);

  it('are those of its claim, for what the bounds are about, with the evaluation they are of', () => {
    expect(earlierSamplesOf(line, bundle.limits, given)).toEqual([
      {
        lot: 'L-0030',
        madeTo: '2031-01-10',
        line: 'burst',
        method: 'BURST',
        methodRevision: 3,
        characteristic: 'burstPressure',
        unit: 'kPa',
        sample: { exact: [1700, 1750, 1800, 1850, 1900], atLeast: [], atMost: [], between: [] },
        evaluation: '7',
      },
    ]);
  });

  it('are none where no bound is claimed, or another method revision or line was tested', () => {
    expect(earlierSamplesOf(bundle.plan.lines[0] as typeof line, bundle.limits, given)).toEqual([]);
    expect(earlierSamplesOf({ ...line, methodRevision: 4 }, bundle.limits, given)).toEqual([]);
    expect(earlierSamplesOf({ ...line, line: 'cold' }, bundle.limits, given)).toEqual([]);
  });

  it('count the specimens that gave none, and are then not pooled', () => {
    const [sample] = earlierSamplesOf(line, bundle.limits, evaluated([1700, undefined, 1800, 1850]));
    expect(sample).toMatchObject({ missing: 1, sample: { exact: [1700, 1800, 1850] } });
    const pooling = {
      rule: 'earlier lots',
      lots: 3,
      test: 'k-sample Anderson-Darling',
      level: 0.05,
      shiftThatMatters: 0.05,
    } as const;
    const lot = plainly(judged(complete, { criteria: [bound('normal')], pooling, earlier: [sample as EarlierSample] }));
    const { pooled } = lot.lines[0]?.criteria[0] ?? {};
    expect(pooled).toMatchObject({ used: false, lots: [{ lot: 'L-0030', n: 0, evaluation: '7' }] });
    expect(pooled?.sentence).toContain(
      '1 specimen of its claim gave no value, and the others alone may be the stronger ones',
    );
  });
});

describe('earlier lots in a bundle', () => {
  const [sample] = earlierSamplesOf(line, bundle.limits, evaluated([1700, 1750, 1800, 1850, 1900])) as [EarlierSample];
  const problems = (...earlier: EarlierSample[]) =>
    checkBundle({ ...bundle, earlier }).map(({ code, pointer }) => [code, pointer]);

  it.each<[string, EarlierSample[], string[][]]>([
    ['fit', [sample], []],
    ['may be in another unit of the quantity', [{ ...sample, unit: 'bar' }], []],
    ['are not this lot', [{ ...sample, lot: 'L-0031' }], [['state.conflict', '/earlier/0/lot']]],
    ['were finished before it', [{ ...sample, madeTo: '2031-01-24' }], [['state.conflict', '/earlier/0/madeTo']]],
    ['are of the quantity', [{ ...sample, unit: 'Cel' }], [['unit.wrong-dimension', '/earlier/0/unit']]],
    ['stand once each', [sample, sample], [['meta.duplicate', '/earlier/1/lot']]],
  ])('%s', (_, earlier, found) => {
    expect(problems(...earlier)).toEqual(found);
  });
});
