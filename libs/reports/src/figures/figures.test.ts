import { isNotEvaluated, type LimitRef, type Reading } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { inventedContent } from '../fixtures/invented-lot.js';
import { lotHistoriesOf, partsOf } from './history-input.js';
import { probabilityPlotOf } from './probability-input.js';
import { staircaseOf } from './staircase-input.js';
import { marginStripOf } from './strip-input.js';
import { spoken, tracePlotOf } from './trace-input.js';

const mixed = inventedContent({ specimens: 8, mixed: true });
const usual = inventedContent({ specimens: 8 });

function given<T extends object>(answer: T): Exclude<T, { notEvaluated: unknown }> {
  if (isNotEvaluated(answer)) throw new Error(answer.notEvaluated.because);
  return answer as Exclude<T, { notEvaluated: unknown }>;
}

describe('staircaseOf', () => {
  // One step of 50 kPa up after each that held, one down after each that broke.
  let next = 1800;
  const strikes = [...'hhhbbbhbhhhbbbbhhhbhhbbb'].map((what) => {
    const one = { level: next, broke: what === 'b' };
    next += one.broke ? -50 : 50;
    return one;
  });
  const of = (share: number, struck = strikes) =>
    inventedContent({
      specimens: struck.length,
      struck,
      change: (bundle) => ({
        ...bundle,
        plan: {
          ...bundle.plan,
          lines: bundle.plan.lines.map((line) => ({
            ...line,
            criteria: [
              {
                kind: 'response energy',
                criterion: 'A1',
                limit: line.limits[0] as LimitRef,
                share,
                confidence: 0.9,
                step: 50,
              },
            ],
          })),
        },
      }),
    });

  it('shows each strike at its level in the order recorded, and where half of them break', () => {
    const judged = of(0.5);
    const drawn = staircaseOf(judged, 'A');
    expect(drawn).toMatchObject({
      strikes: strikes.map((one, index) => ({ ...one, label: String(401 + index) })),
      estimate: judged.lot.lines[0]?.criteria[0]?.bound?.estimate,
    });
    expect((drawn as { estimate: number }).estimate).toBeGreaterThan(1800);
    expect((drawn as { estimate: number }).estimate).toBeLessThan(1900);
    expect((drawn as { alt: string }).alt.replace(/[\u00a0\u202f]/g, ' ')).toMatch(
      /^401 at 1 800 kPa .*: held; 402 at/,
    );
  });

  it('draws no line of one half where another share is asked for', () => {
    expect(staircaseOf(of(0.1), 'A')).not.toHaveProperty('estimate');
  });

  it('is nothing where the plan asks for no such load, and a reason where a specimen was not struck once', () => {
    expect(staircaseOf(usual, 'A')).toBeUndefined();
    const judged = of(0.5);
    const judgements = judged.judgements.map((one, index) => (index === 0 ? (usual.judgements[0] ?? one) : one));
    expect(staircaseOf({ ...judged, judgements }, 'A')).toMatchObject({
      notEvaluated: { because: '1 of 24 specimens were not struck once at one level' },
    });
  });
});

describe('lotHistoriesOf', () => {
  const named = (lot: string, weakest: number) =>
    inventedContent({
      specimens: 8,
      weakest,
      change: (bundle) => ({ ...bundle, lot: { ...bundle.lot, lot } }),
    });
  const lots = [named('D42-PP1', 1710), named('D42-PP2', 1660), named('D42-PP3', 1740)];
  const [found] = lotHistoriesOf('dunlin-42', lots.map(partsOf));

  it('has each lot once, in the order given, with the values of its claim and its bound as judged', () => {
    expect(found).toMatchObject({ method: 'BURST', characteristic: 'burstPressure' });
    expect(found?.history.lots.map(({ lot }) => lot)).toEqual(['D42-PP1', 'D42-PP2', 'D42-PP3']);
    for (const [index, judged] of lots.entries()) {
      const bound = judged.lot.lines[0]?.criteria.find((one) => one.bound)?.bound;
      const one = found?.history.lots[index];
      expect(one?.bound).toEqual({ value: bound?.value, estimate: bound?.estimate });
      expect(one?.results.map(({ value }) => (value.kind === 'exact' ? value.value : undefined))).toContain(
        [1710, 1660, 1740][index],
      );
    }
  });

  it('draws a limit once for all lots, and no more than can be told apart, external ones first', () => {
    expect(found?.history.limits.map(({ value, external }) => [value, external])).toEqual([
      [1500, true],
      [1700, false],
    ]);
    const more = lots.map((judged, index) =>
      partsOf(judged).map((part) => ({
        ...part,
        limits: [
          ...part.limits,
          ...[1, 2].map((n) => ({ label: `Internal ${index} ${n}`, value: 1000 + n, external: false })),
        ],
      })),
    );
    const [crowded] = lotHistoriesOf('dunlin-42', more);
    expect(crowded?.history.limits).toHaveLength(4);
    expect(crowded?.history.limits[0]?.external).toBe(true);
    expect(crowded?.history.caption).toContain('4 further limits are not drawn.');
  });

  it('tells whoever cannot see it each lot, its lowest result and its bound', () => {
    expect(found?.history.alt.replace(/[\u00a0\u202f]/g, ' ')).toMatch(
      /D42-PP2: 8 results, lowest 1 660 kPa \(240\.8 psi\)\. Lower bound 1 \d{3} kPa/,
    );
  });
});

describe('marginStripOf', () => {
  const strip = given(marginStripOf(mixed, 'A'));

  it('shows every valid run, open where it makes no claim, and never an invalid or refused one', () => {
    const shown = new Map(strip.specimens.map(({ label, inClaim }) => [label, inClaim]));
    const [picked, invalid, refused] = ['409', '410', '411'];
    expect(shown.get(picked ?? '')).toBe(false);
    expect(shown.has(invalid ?? '')).toBe(false);
    expect(shown.has(refused ?? '')).toBe(false);
    expect([...shown.values()].filter((inClaim) => inClaim)).toHaveLength(8);
    expect(strip.caption).toContain('Not shown: 2 runs without a valid value');
  });

  it('draws limits in the unit of the characteristic, external and internal apart', () => {
    // 17 bar is 1 700 kPa.
    expect(strip.limits.map(({ value, external }) => [value, external])).toEqual([
      [1500, true],
      [1700, false],
    ]);
  });

  it('carries the bound of the criterion as it was judged', () => {
    const [, criterion] = usual.lot.lines[0]?.criteria ?? [];
    const [bound] = given(marginStripOf(usual, 'A')).bounds;
    expect(criterion?.bound).toBeDefined();
    expect(bound).toMatchObject({
      value: criterion?.bound?.value,
      estimate: criterion?.bound?.estimate,
      against: criterion?.limitValue,
    });
  });

  it('tells whoever cannot see it what it shows', () => {
    expect(strip.alt.replace(/[\u00a0\u202f]/g, ' ')).toMatch(
      /401: 1 \d{3} kPa \(\d{3}\.\d psi\).*External limit OCF-B1 rev\. 2/,
    );
  });

  it('says why there is no picture where no run is valid', () => {
    const none = inventedContent({ specimens: 1 });
    const judgements = none.judgements.map((one) => ({ ...one, validity: 'invalid' as const }));
    expect(marginStripOf({ ...none, judgements }, 'A')).toMatchObject({
      notEvaluated: { because: 'no valid run gives a value' },
    });
  });
});

describe('probabilityPlotOf', () => {
  // Median ranks for n = 8: 0.0830, 0.2011, 0.3205, 0.4402, 0.5598, 0.6795, 0.7989, 0.9170
  // (Johnson 1951; as tabled in many handbooks, from memory to four digits).
  it('puts the broken specimens of the claim at exact median ranks', () => {
    const plot = given(probabilityPlotOf(usual, 'A'));
    const fractions = plot.failures.map(({ fraction }) => fraction);
    const tabled = [0.083, 0.2011, 0.3205, 0.4402, 0.5598, 0.6795, 0.7989, 0.917];
    expect(fractions).toHaveLength(tabled.length);
    for (const [index, fraction] of fractions.entries()) expect(fraction).toBeCloseTo(tabled[index] ?? 0, 4);
  });

  it('names each point by its specimen, from the lowest up', () => {
    const plot = given(probabilityPlotOf(usual, 'A'));
    for (const { label, value } of plot.failures) {
      const result = usual.judgements.find(({ specimen }) => specimen === label)?.results[0];
      expect(result?.value).toEqual({ kind: 'exact', value });
    }
    expect(plot.failures.map(({ value }) => value)).toEqual(
      plot.failures.map(({ value }) => value).toSorted((a, b) => a - b),
    );
  });

  it('says why there is none where strengths have no rank', () => {
    const judgements = usual.judgements.map((one) => ({
      ...one,
      results: one.results.map((result) => ({ ...result, value: { kind: 'between' as const, lower: 1, upper: 2 } })),
    }));
    expect(probabilityPlotOf({ ...usual, judgements }, 'A')).toMatchObject({
      notEvaluated: { possibleIf: 'every strength is known exactly or as at least' },
    });
  });
});

describe('the record that is shown', () => {
  it('is that of the lowest valid result, thinned without losing its peak', () => {
    const [trace] = mixed.traces;
    const values = mixed.judgements
      .filter(({ validity }) => validity === 'valid')
      .map(({ run, results: [result] }) => ({
        run,
        value: result && 'value' in result.value ? result.value.value : 0,
      }));
    const lowest = values.toSorted((a, b) => (a.value as number) - (b.value as number))[0];
    expect(trace?.run).toBe(lowest?.run);
    const [channel] = trace?.channels ?? [];
    expect(channel?.values.length).toBeLessThanOrEqual(1000);
    expect(Math.max(...(channel?.values ?? []))).toBeCloseTo(lowest?.value as number, -1);
  });

  it('takes only the marked moments of the passage and the channels that are drawn', () => {
    const [trace] = mixed.traces;
    const run = mixed.bundle.runs.find((one) => one.run === trace?.run);
    const reading = mixed.readings.find((one) => one.run === trace?.run);
    const [method] = mixed.bundle.methods;
    if (!trace || !run || !reading || !method) throw new Error('no trace');
    const events = [
      ...reading.events,
      { name: 'another passage', time: 1, value: 1, channel: 'rimPressure', passage: 2 },
      { name: 'another channel', time: 1, value: 1, channel: 'flow' },
    ];
    const own = ['10 % of the peak', '90 % of the peak', 'peak'];
    const namesIn = (passages: (number | undefined)[], shown?: number) =>
      tracePlotOf({
        ...trace,
        ...(shown === undefined ? {} : { passage: shown }),
        channels: passages.flatMap((passage) =>
          trace.channels.map((one) => ({ ...one, ...(passage === undefined ? {} : { passage }) })),
        ),
        run,
        method,
        reading: { ...reading, events: [...events.filter(({ passage }) => passage === 2), ...ofPassage1(events)] },
      });
    const first = namesIn([1, 2], 1);
    expect(first.events.map(({ name }) => name)).toEqual(own);
    expect(first.channels).toHaveLength(trace.channels.length);
    expect(first.caption).toContain('passage 1');
    const last = namesIn([1, 2]);
    expect(last.events.map(({ name }) => name)).toEqual(['another passage']);
    expect(last.caption).toContain('passage 2');
    // One record of the whole run, as of braking in stages: the moments of every stage lie in it.
    expect(namesIn([undefined]).events.map(({ name }) => name)).toEqual(['another passage', ...own]);
  });

  function ofPassage1(events: Reading['events']): Reading['events'] {
    return events.flatMap((event) => (event.passage === undefined ? [{ ...event, passage: 1 }] : []));
  }

  it('speaks channel names as people do', () => {
    expect(spoken('rimPressure2')).toBe('Rim pressure 2');
    expect(spoken('roomTemperature')).toBe('Room temperature');
  });
});
