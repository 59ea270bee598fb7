import type { Measurement, Run } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import {
  BEFORE,
  type HeatCells,
  type HeatInvention,
  inventedHeatRun,
  ONE_STAGE,
  ROOM,
} from './invented-heat.fixture.js';
import { readRun } from './read-run.js';
import { seenIn } from './reading.fixture.js';

const seen = (over: Partial<HeatInvention> = {}) => seenIn(readRun(inventedHeatRun({ ...ONE_STAGE, ...over })));
const asking = (over: Partial<HeatInvention['parameters']>): Partial<HeatInvention> => ({
  parameters: { ...ONE_STAGE.parameters, ...over },
});

describe('a track sensor that lets go of the power', () => {
  /** 100 s after the brake came on; the record goes on after it was let go. */
  const AT = BEFORE + 100;
  /** What has gone of a warming by then, by a share, some seconds long. */
  const gone = (temperature: number, share: number, time: number, seconds: number) =>
    time > AT ? share * (temperature - ROOM) * -Math.expm1(-(time - AT) / seconds) : 0;
  const cooling =
    (change: (cells: HeatCells) => Partial<HeatCells>): HeatInvention['row'] =>
    (cells) =>
      cells.time > AT
        ? {
            ...cells,
            left: cells.left - gone(cells.left, 0.5, cells.time, 30),
            right: cells.right - gone(cells.right, 0.5, cells.time, 30),
            ...change(cells),
          }
        : cells;

  it('is found though nothing jumps, with the two sensors apart', () => {
    const found = seen({ row: (cells) => ({ ...cells, right: cells.right - gone(cells.right, 0.5, cells.time, 10) }) });
    expect(found.checks).toEqual(['track sensor attached: flag', 'track sensors: flag']);
    expect(found.flags).toEqual(['signal.stuck']);
    const check = found.reading.checks.find((one) => one.check === 'track sensor attached' && one.outcome === 'flag');
    expect(check?.finding).toContain('while the brake was on and neither its power fell nor the air stream rose');
    expect(check?.place).toMatchObject({ channel: 'trackTemperatureRight' });
  });

  it('is not seen in tracks that cool because the power fell or the air blew harder', () => {
    const attached = 'track sensor attached: flag';
    expect(seen({ row: cooling(() => ({})) }).checks).toContain(attached);
    expect(seen({ row: cooling(({ force }) => ({ force: 0.5 * force })) }).checks).not.toContain(attached);
    expect(seen({ row: cooling(({ air }) => ({ air: 1.3 * air })) }).checks).not.toContain(attached);
  });

  it('is not seen in a track that cools while the brake is off', () => {
    const row: HeatInvention['row'] = (cells) => {
      const off = cells.time - AT;
      if (off <= 0) return cells;
      const less = off < 9 ? 3 * off : 27 * Math.exp(-(off - 9) / 20);
      return { ...cells, ...(off < 9 ? { force: 0 } : {}), left: cells.left - less, right: cells.right - less };
    };
    expect(seen({ row })).toMatchObject({ checks: [], flags: [] });
  });
});

describe('an infrared sensor beside contact', () => {
  const infraredDifference = { most: { value: 20, unit: 'K' }, longest: { value: 30, unit: 's' } };
  const bare = (left: number) => ROOM + 0.3 * (left - ROOM);

  it.each([0.1, 1, 3])('that agrees passes, with %d times its noise', (noise) => {
    const found = seen({ ...asking({ infraredDifference }), noise, infrared: (left) => left - 5 });
    expect(found).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
    expect(found.reading.checks.map(({ check }) => check)).toContain('infrared');
  });

  it('that looks at a bare track is found, and nothing else', () => {
    const found = seen({ ...asking({ infraredDifference }), infrared: bare });
    expect(found).toMatchObject({ checks: ['infrared: flag'], proposed: 'needs a look' });
    expect(found.reading.checks.find(({ check }) => check === 'infrared')?.place?.channel).toBe(
      'trackTemperatureInfrared',
    );
  });

  it('may be off for as long as the method lets pass', () => {
    const short = (left: number, { braking }: { braking: number }) =>
      braking > 100 && braking < 120 ? left - 30 : left;
    expect(seen({ ...asking({ infraredDifference }), infrared: short }).checks).toEqual([]);
  });

  it('is not held against contact by a method that does not say how far they may differ, nor where there is none', () => {
    expect(seen({ infrared: bare }).reading.checks.map(({ check }) => check)).not.toContain('infrared');
    expect(seen(asking({ infraredDifference })).reading.checks.map(({ check }) => check)).not.toContain('infrared');
  });
});

describe('what is recorded beside the trace', () => {
  const recorded: NonNullable<HeatInvention['parameters']['recorded']> = ['pads', 'pad mass', 'pads after', 'tube'];
  const mass = (of: string, value: number, unit = 'g'): Measurement => ({
    of,
    quantity: { value, unit },
    instrument: 'invented scale',
    person: 'p1',
    at: '2031-03-04T08:50:00Z',
  });
  const whole: Partial<Run> = {
    conditions: { pads: 'compound A, new', tyre: '622-28 with butyl tube', 'pads after': 'worn evenly, not glazed' },
    measurements: [mass('padMassBefore', 41.65), mass('padMassAfter', 0.04035, 'kg')],
  };
  const asked = (run: Partial<Run>) => seen({ ...asking({ recorded }), run });
  const without = (name: string): Partial<Run> => {
    const { [name]: _, ...conditions } = whole.conditions ?? {};
    return { ...whole, conditions };
  };
  const saying = (conditions: Run['conditions']): Partial<Run> => ({
    ...whole,
    conditions: { ...whole.conditions, ...conditions },
  });

  it('passes where all of it is there', () => {
    const found = asked(whole);
    expect(found).toMatchObject({ checks: [], flags: [], proposed: 'valid' });
    const says = (name: string) => found.reading.checks.find(({ check }) => check === name)?.finding;
    expect(says('pad mass')).toMatch(/^They lost 1\.3\S* g of 41\.65\S* g\.$/);
    expect(says('pads named')).toContain('compound A');
    expect(says('tube noted')).toContain('butyl');
  });

  it.each<[string, Partial<Run>, string]>([
    ['nobody named the pads', without('pads'), 'pads named: flag'],
    ['nobody looked at the pads', without('pads after'), 'pads after: flag'],
    ['the pads glazed', saying({ 'pads after': 'glazed over half of their face' }), 'pads after: flag'],
    ['the pads wore to the backing', saying({ 'pads after': 'left one worn to the backing' }), 'pads after: flag'],
    ['the pads melted', saying({ 'pads after': 'Melted at the trailing edge' }), 'pads after: flag'],
    ['nobody noted the tyre', without('tyre'), 'tube noted: flag'],
    ['nobody noted the tube', saying({ tyre: '622-28' }), 'tube noted: flag'],
    ['the pads were weighed only once', { ...whole, measurements: [mass('padMassBefore', 41.65)] }, 'pad mass: flag'],
    ['nobody weighed the pads', { ...whole, measurements: [] }, 'pad mass: flag'],
    [
      'the pads gained',
      { ...whole, measurements: [mass('padMassBefore', 41.65), mass('padMassAfter', 41.7)] },
      'pad mass: flag',
    ],
    ['it was driven otherwise', saying({ 'control mode': 'constant lever weight' }), 'control mode: fail'],
    ['nobody knows how it was driven', saying({ 'control mode': 'by hand' }), 'control mode: flag'],
  ])('is found where %s, and nothing else', (_, run, check) => {
    const found = asked(run);
    expect(found.checks).toEqual([check]);
    expect(found.proposed).toBe(check.endsWith('fail') ? 'invalid' : 'needs a look');
    for (const { outcome, action, finding, question } of found.reading.checks) {
      expect([question.endsWith('?'), finding.endsWith('.')]).toEqual([true, true]);
      expect(action !== undefined).toBe(outcome !== 'pass');
    }
  });

  it('is looked at where it is there though the method does not ask, and left alone where it is not', () => {
    const names = (run: Partial<Run>) => seen({ run }).reading.checks.map(({ check }) => check);
    const ours = ['pads named', 'pad mass', 'pads after', 'tube noted', 'control mode'];
    expect(names(saying({ 'control mode': 'constant power' }))).toEqual(expect.arrayContaining(ours));
    for (const name of ours) expect(names({})).not.toContain(name);
    expect(seen({ run: saying({ 'pads after': 'glazed' }) }).checks).toEqual(['pads after: flag']);
  });

  it('weighs several pads together', () => {
    const measurements = [
      mass('padMassBefore', 20),
      mass('padMassBefore', 21),
      mass('padMassAfter', 19),
      mass('padMassAfter', 20.5),
    ];
    const found = asked({ ...whole, measurements });
    expect(found.checks).toEqual([]);
    expect(found.reading.checks.find(({ check }) => check === 'pad mass')?.finding).toContain('1.5');
  });
});
