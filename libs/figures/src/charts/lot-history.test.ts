import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../papers/svg.js';
import { FIGURE_WIDTH } from '../scene.js';
import { type LotHistoryInput, lotHistory } from './lot-history.js';

const input: LotHistoryInput = {
  title: 'Lots over time',
  alt: 'Four lots, all above the external limit.',
  caption: '',
  quantity: { title: 'Burst pressure', unit: 'kPa', reference: 'gauge', decimals: 0 },
  lots: [2401, 2403, 2405, 2407].map((lot, index) => ({
    lot: String(lot),
    results: [1790, 1850, 1905, 1960].map((value, at) => ({
      label: `${lot}-${at}`,
      value: { kind: at === 3 ? ('atLeast' as const) : ('exact' as const), value: value - 25 * index },
    })),
    ...(index === 2 ? {} : { bound: { value: 1610 - 25 * index, estimate: 1740 - 25 * index } }),
  })),
  limits: [
    { label: 'OCF-B1 rev. 2', value: 1500, external: true },
    { label: 'SW-F3 rev. 2', value: 1700, external: false },
  ],
};

describe('lotHistory', () => {
  const scene = lotHistory(input);

  it('shows every result, in the column of its lot, filled only where it is exact', () => {
    const dots = scene.marks.flatMap((mark) => (mark.mark === 'dot' && mark.part === 'result' ? [mark] : []));
    expect(dots).toHaveLength(16);
    expect(new Set(dots.map(({ at: [x] }) => x)).size).toBe(4);
    expect(dots.filter(({ form }) => form === 'ring')).toHaveLength(4);
  });

  it('draws a wedge with its tip at the bound, and none for a lot without one', () => {
    const wedges = scene.marks.flatMap((mark) => (mark.mark === 'area' && mark.part === 'bound' ? [mark] : []));
    expect(wedges).toHaveLength(3);
    for (const { points } of wedges) expect(points[0]?.[1]).toBeGreaterThan(points[1]?.[1] ?? 0);
    // Two lots whose bounds are 25 kPa apart, and limits 200 kPa apart: one scale for both.
    const limits = scene.marks.flatMap((mark) =>
      mark.mark === 'line' && mark.part === 'limit' ? [mark.points[0]] : [],
    );
    const perKpa = ((limits[0]?.[1] ?? 0) - (limits[1]?.[1] ?? 0)) / 200;
    const [first, second] = wedges.map(({ points }) => points[0]?.[1] ?? 0);
    expect(((second ?? 0) - (first ?? 0)) / perKpa).toBeCloseTo(25, 6);
  });

  it('tells no two limits apart by colour alone', () => {
    const strokes = scene.marks.flatMap((mark) => (mark.part === 'limit' && mark.mark === 'line' ? [mark.stroke] : []));
    expect(new Set(strokes.map(({ width, dash }) => `${width} ${dash ?? 'whole'}`)).size).toBe(2);
  });

  it.each(Object.entries(FIGURE_WIDTH))('is drawn as in the stored picture at the %s width', async (name, width) => {
    await expect(sceneToSvg(lotHistory({ ...input, width }), { theme: 'light' })).toMatchFileSnapshot(
      `./pictures/lot-history${name === 'wide' ? '' : `-${name}`}.svg`,
    );
  });
});
