import type { LotBundle, Plan } from '@breakbook/lab';
import { beforeAll, expect, it } from 'vitest';
import { needs, told } from '../../../../../tests/tools.js';
import { composeDocument } from '../../compose-document.js';
import { lotReportContent } from '../../content/lot-report-content.js';
import { inventedContent } from '../../fixtures/invented-lot.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ').replace(/\s+/g, ' ');

async function printed(content: ReturnType<typeof inventedContent>): Promise<string> {
  const bytes = await composeDocument('lot test report', content, { paper: 'A4' });
  return plain(told('pdftotext', bytes, (file) => ['-raw', file, '-']));
}

const pooling: Plan['claim']['pooling'] = {
  rule: 'earlier lots',
  lots: 2,
  test: 'k-sample Anderson-Darling',
  level: 0.05,
  shiftThatMatters: 0.05,
};

/** A line of two stages whose plan pools, with a limit on signs that must be absent. */
function scheduled(bundle: LotBundle): LotBundle {
  const [line] = bundle.plan.lines as [Plan['lines'][number]];
  const [external] = bundle.limits as [LotBundle['limits'][number]];
  const { characteristic: _, ...common } = external;
  const noCrack: LotBundle['limits'][number] = {
    ...common,
    characteristic: 'cracks',
    limit: 'SW-C1',
    title: 'Cracks along the bead',
    bound: 'absent',
    decisionRule: { rule: 'simple' },
    signs: ['BT-OFF'],
    unit: '1',
    inspection: { method: 'by eye at 300 mm under 1 000 lx', detects: 'Cracks of 10 mm or longer.' },
  };
  const earlier = [1710, 1760, 1800, 1840, 1880, 1920, 1960, 1990];
  return {
    ...bundle,
    limits: [...bundle.limits, noCrack],
    plan: {
      ...bundle.plan,
      claim: { ...bundle.plan.claim, pooling },
      lines: [
        {
          ...line,
          stages: [4, 4],
          retained: 2,
          limits: [...line.limits, { limit: 'SW-C1', revision: noCrack.revision }],
          criteria: line.criteria.filter(({ kind }) => kind === 'tolerance bound'),
        },
      ],
    },
    earlier: [
      {
        lot: 'D42-PP0',
        madeTo: '2030-12-10',
        line: line.line,
        method: line.method,
        methodRevision: line.methodRevision,
        characteristic: 'burstPressure',
        unit: 'kPa',
        sample: { exact: earlier },
        evaluation: '3',
      },
    ],
  };
}

needs('pdftotext')('the report of a lot tested by a declared schedule', () => {
  let text = '';
  beforeAll(async () => {
    text = await printed(inventedContent({ specimens: 8, weakest: 1100, change: scheduled }));
  }, 60_000);

  it.each<[string, RegExp]>([
    [
      'what the plan asks, in words',
      /8 specimens, by BURST rev\. 3, in 2 stages of 4 and 4: a later one is made only where those before it settle nothing\. .*kept unbroken: 2 specimens\./,
    ],
    [
      'what each look said, at which confidence',
      /Stages declared before the test .*Stage 1 of 2: 4 of 4 specimens in the claim; A2 is not yet decidable \(bound .* at 9\d\.\d+ % confidence at this look\)\..*Stage 2 of 2: 8 of 8 specimens/,
    ],
    [
      'earlier lots with the test and its power',
      /Earlier lots .*Criterion A2\. Earlier: D42-PP0 \(evaluation 3, 8 values\); the test .* Would a difference that matters have been seen\? A mean off by 5 % would be seen with probability 0\.\d\d/,
    ],
    [
      'the value far from the others, with and without it',
      /Values far from the others .*Specimen 401 \(run 161\), 1 100 kPa, lies lower than the scatter of the others explains.*stays in the claim\. With and without, criterion A2: bound .* with it, .* without it/,
    ],
    [
      'signs that must be absent, with the way of looking and what it finds',
      /Signs that must be absent, plan line A Specimen SW-C1 rev\. 2 .*conforms pass; none found.*SW-C1 rev\. 2: none of BT-OFF; looked for by eye at 300 mm under 1 000 lx, which finds Cracks of 10 mm or longer\./,
    ],
    [
      'a bound on all that it rests on, as its last look gave it',
      /At least 90 % of the process holds (1 \d{3}) kPa or more, with 95 % confidence \(16 specimens, 16 broken\).*Stage 2 of 2: [^()]*\(bound \1 kPa/,
    ],
    ['zone and probability beside a verdict', /outside the limit; P below 0\.001/],
    [
      'what that probability is',
      /P, the probability that the specimen itself conforms by the measurement alone \(JCGM 106:2012, 7\)/,
    ],
  ])('prints %s', (_, found) => {
    expect(text).toMatch(found);
  });

  it('prints no forecast, since nothing is left to be made', () => {
    expect(text).not.toMatch(/Forecast/);
  });
});

needs('pdftotext')('the report of a lot that is undecided', () => {
  it('prints the forecast apart, as one that decides nothing', async () => {
    const more = (bundle: LotBundle): LotBundle => ({
      ...bundle,
      plan: { ...bundle.plan, lines: bundle.plan.lines.map((line) => ({ ...line, specimens: 11 })) },
    });
    const text = await printed(inventedContent({ specimens: 8, change: more }));
    expect(text).toMatch(
      /Forecast, which decides nothing .*The 3 planned runs still to be made would meet line A with probability 0\.\d+.*A forecast decides nothing\. Standard error .* simulated lots, seed \d+\. Assumed: /,
    );
  }, 60_000);
});

it('a what-if gets no report', () => {
  const { bundle, lot, identity } = inventedContent({ specimens: 3 });
  const whatIf = { changed: ['limit OCF-B1 rev. 2: at least 1 400 kPa in place of at least 1 500 kPa'] };
  const evaluation = { result: { ...lot, whatIf }, runs: [], refused: [] };
  expect(() => lotReportContent({ bundle, evaluation, document: identity })).toThrow(/what-if/);
});
