import { appendFileSync } from 'node:fs';
import { lowerToleranceBound, seededGenerator } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';
import { FORECAST_CASES } from '../fixtures/forecast-cases.js';
import { asJudged } from '../fixtures/judged-lot.js';
import { RISK_CASES } from '../fixtures/risk-cases.js';
import {
  type CensoredCase,
  censoredStageRisk,
  forecastBands,
  type PoolingCase,
  pooledOrNot,
  poolingLot,
  poolingRisk,
  type Report,
  risksOf,
} from '../fixtures/risk-study.js';

/** Lots a case: few here; `npm run bench -- --lots` makes ten thousand, and writes docs/lot-risks.md. */
const LOTS = Number(process.env.BREAKBOOK_LOTS ?? 0);
const long = LOTS > 0;
const out = process.env.BREAKBOOK_LOT_RISKS;

const write = (text: string) => {
  if (out) appendFileSync(out, `${text}\n`);
};
const progressOf =
  (name: string, lots: number): Report =>
  (done) => {
    if (long && (done % Math.ceil(lots / 10) === 0 || done === lots))
      process.stderr.write(`${name}: ${done} of ${lots}\n`);
  };
const percent = (part: number, whole: number) => (whole === 0 ? '' : `${((100 * part) / whole).toFixed(1)} %`);

describe('lots that just miss what is claimed', () => {
  write(
    '## How often lots are accepted that just miss the claim\n\n| claim | lots | claimed at most | accepted | nothing could be said |\n| --- | --- | --- | --- | --- |',
  );
  // A chance of 1 in 10 000 a case that one errs no more often than claimed and fails here: 3.7 standard errors.
  it.each(RISK_CASES.map((one) => [one.name, one] as const))('%s: accepted no more often than claimed', (name, one) => {
    const slow = /median|level that/.test(name);
    const lots = long ? Math.ceil(slow ? LOTS / 5 : LOTS) : slow ? 6 : 40;
    const { accepted, undecided, error } = risksOf(one, lots, 1, progressOf(name, lots));
    write(
      `| ${name} | ${lots} | ${percent(one.claimed, 1)} | ${percent(accepted, lots)} | ${undecided ? percent(undecided, lots) : ''} |`,
    );
    expect(accepted / lots).toBeLessThanOrEqual(one.claimed + 3.7 * error);
  });
});

describe('lots that just miss, pooled with stronger ones', () => {
  const at = (shift: number, level: PoolingCase['level'] = 0.05): PoolingCase => ({ shift, earlier: 2, n: 5, level });

  it('are judged in this study as judgeLot does', () => {
    const chance = seededGenerator(3);
    for (let lot = 0; lot < 2; lot++) {
      const given = poolingLot(chance, at(lot));
      const own = Array.from({ length: 5 }, () => ({ value: 1600 + 80 * chance.normal() }));
      const [criterion] = asJudged(own, given).lines[0]?.criteria ?? [];
      const { values } = pooledOrNot(
        own.map(({ value }) => value),
        given,
      );
      expect(criterion?.pooled).toMatchObject({ used: values.length > 5 });
      const bound = lowerToleranceBound({
        sample: { exact: values },
        coverage: 0.9,
        confidence: 0.95,
        distribution: 'normal',
      });
      expect(bound).toMatchObject({ bound: criterion?.bound?.value });
    }
  });

  it('are accepted more often than claimed, the more so the less the test can see', () => {
    write(
      '\n## What pooling does to the risk\n\nThe lot judged just misses 90 % with 95 %, normal, n = 5, and two earlier lots of 5 lie above it by so many scatters.\n\n| shift, scatters | level of the test | lots | claimed at most | accepted | pooled |\n| --- | --- | --- | --- | --- | --- |',
    );
    const lots = long ? LOTS : 150;
    const found = new Map<string, number>();
    for (const level of [0.25, 0.05] as const)
      for (const shift of [0, 0.5, 1, 1.5, 2, 3]) {
        const { accepted, pooled } = poolingRisk(
          at(shift, level),
          lots,
          1,
          progressOf(`pooled, ${shift} at ${level}`, lots),
        );
        write(`| ${shift} | ${level} | ${lots} | 5.0 % | ${percent(accepted, lots)} | ${percent(pooled, lots)} |`);
        found.set(`${shift} at ${level}`, accepted / lots);
      }
    // Of one population the claim is kept within chance; one scatter apart it is not, and a level of 0.25 sees more.
    expect(found.get('0 at 0.05')).toBeLessThan(0.05 + 0.02 + 3.7 * Math.sqrt(0.0475 / lots));
    expect(found.get('1 at 0.05')).toBeGreaterThan(0.1);
    expect(found.get('2 at 0.25')).toBeLessThan(found.get('2 at 0.05') as number);
  });
});

describe('bounds in stages where some specimens are left whole', () => {
  write(
    '\n## Bounds in stages where some specimens are left whole\n\n| bound | stages | left whole | share left whole | lots | claimed at most | accepted at most | no bound at the last look |\n| --- | --- | --- | --- | --- | --- | --- | --- |',
  );
  const cases = (['normal', 'weibull'] as const).flatMap((distribution) =>
    [
      [5, 5],
      [4, 4, 4],
      [10, 10],
    ].flatMap((stages) =>
      (['at the rig limit', 'by other modes'] as const).flatMap((ended) =>
        [0.3, 0.6].map((share): CensoredCase => ({ distribution, stages, ended, share })),
      ),
    ),
  );
  const named = cases.map(
    (one) => [`${one.distribution} in ${one.stages.join(' and ')}, ${one.share} ${one.ended}`, one] as const,
  );
  // Each of the 24 cases errs here with a chance of 1 in 10 000, were it just what is claimed.
  it.each(long ? named : named.filter((_, index) => index % 7 === 0))('%s: as often as claimed', (name, one) => {
    const lots = long ? Math.ceil((2 * LOTS) / 5) : 40;
    const { accepted, boundless, error } = censoredStageRisk(one, lots, 1, progressOf(name, lots));
    write(
      `| ${one.distribution} | ${one.stages.join(', ')} | ${one.ended} | ${percent(one.share, 1)} | ${lots} | 5.0 % | ${percent(accepted, lots)} | ${percent(boundless, lots)} |`,
    );
    expect(accepted / lots).toBeLessThanOrEqual(0.05 + 3.7 * error);
  });
});

describe('forecasts', () => {
  write('\n## Whether forecasts are right on average\n');
  it.each(FORECAST_CASES.map((one) => [one.name, one] as const))('%s', (name, one) => {
    const weibull = name.startsWith('Weibull');
    const lots = long ? Math.ceil(LOTS / 5) : weibull ? 2 : 25;
    const { bands, settled } = forecastBands(one, lots, 1, progressOf(name, lots));
    write(
      `\n${name}; ${lots} lots, ${settled} of them settled before or without a forecast.\n\n| forecast | lots | mean forecast | met the plan | standard error |\n| --- | --- | --- | --- | --- |`,
    );
    for (const band of bands.filter(({ lots }) => lots > 0)) {
      write(
        `| ${band.from} to ${band.to} | ${band.lots} | ${band.forecast.toFixed(3)} | ${(band.met / band.lots).toFixed(3)} | ${band.error.toFixed(3)} |`,
      );
      if (name.includes('nearly alike')) continue;
      // Fiducial forecasts are right over populations spread without end; over these, to a few hundredths. A forecast near
      // 0 or 1 that comes out otherwise once is no error yet.
      expect(Math.abs(band.met / band.lots - band.forecast)).toBeLessThan(0.03 + 4 * band.error + 1 / band.lots);
    }
  });
});
