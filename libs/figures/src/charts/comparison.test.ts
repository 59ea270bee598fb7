import { describe, expect, it } from 'vitest';
import { sceneToPaths } from '../papers/paths.js';
import { sceneToSvg } from '../papers/svg.js';
import { FIGURE_WIDTH, type Mark } from '../scene.js';
import { textWidth } from '../text-width.js';
import { type ComparedAxis, type ComparisonInput, comparison } from './comparison.js';

const lot = (label: string, values: number[], more: ComparedAxis['items']['lanes'][number]['values'] = []) => ({
  label,
  values: [
    ...values.map((value, index) => ({ label: `${label}-${index + 1}`, value: { kind: 'exact' as const, value } })),
    ...more,
  ],
});
const exact = (label: string, value: number) => ({
  label,
  values: [{ label, value: { kind: 'exact', value } as const }],
});

/** Invented: a pair from a market, softer and lighter than three lots that are known; the last burst at the rig's limit. */
const burst: ComparedAxis = {
  quantity: { title: 'Burst pressure', unit: 'kPa', reference: 'gauge', decimals: 0 },
  reference: {
    title: 'reference',
    lanes: [
      lot('D42-2401', [1790, 1832, 1845, 1901]),
      lot('D42-2404', [1741, 1766, 1812], [{ label: '2404-4', value: { kind: 'atLeast', value: 1850 } }]),
      lot('D42-2407', [1805, 1806, 1807, 1860]),
    ],
  },
  items: {
    title: 'items',
    lanes: [exact('X-1', 1335), { label: 'X-2', values: [{ label: 'X-2', value: { kind: 'atMost', value: 1420 } }] }],
  },
  bounds: [{ side: 'lower', value: 1611.3, level: '99.2 %' }],
  limits: [
    { label: 'External limit OCF-B1 rev. 2', external: true, value: 1500, conforms: 'at or above' },
    { label: 'Internal limit SW-F3 rev. 1', external: false, value: 1650, conforms: 'at or above' },
  ],
};
const mass: ComparedAxis = {
  quantity: { title: 'Mass', unit: 'g', decimals: 0 },
  reference: {
    title: 'reference',
    lanes: [lot('D42-2401', [451, 452, 455, 458]), lot('D42-2404', [449, 453, 456]), lot('D42-2407', [450, 454])],
  },
  items: { title: 'items', lanes: [exact('X-1', 431), exact('X-2', 452)] },
  bounds: [
    { side: 'lower', value: 443.1, level: '98.3 %' },
    { side: 'upper', value: 463.8, level: '98.3 %' },
  ],
  limits: [],
};
const input: ComparisonInput = {
  title: 'Items against the reference',
  alt: 'Both items burst below the lower bound of the reference; one is lighter than all of it.',
  caption: '',
  axes: [burst, mass],
};
const parts = (marks: readonly Mark[], part: string) => marks.filter((mark) => mark.part === part);

describe('comparison', () => {
  const scene = comparison(input);

  it('shows every value once: the reference round, items on their corner, what is known from one side as a tick', () => {
    const values = (part: string) => parts(scene.marks, part).map(({ mark, note }) => [note?.split(':')[0], mark]);
    expect(values('reference')).toHaveLength(12 + 9);
    expect(values('reference').filter(([, mark]) => mark === 'line')).toEqual([['2404-4', 'line']]);
    expect(values('item')).toEqual([
      ['X-1', 'area'],
      ['X-2', 'line'],
      ['X-1', 'area'],
      ['X-2', 'area'],
    ]);
  });

  it('keeps the lots of the reference in lanes apart, each with its name', () => {
    const one = comparison({ ...input, axes: [mass] });
    const names = one.marks.flatMap((mark) => (mark.mark === 'text' && mark.part === 'lane name' ? [mark] : []));
    expect(names.map(({ text }) => text)).toEqual(['D42-2401', 'D42-2404', 'D42-2407', 'X-1', 'X-2']);
    const heights = names.map(({ at }) => at[1]);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
    const of = (name: string) =>
      one.marks.flatMap((mark) => (mark.mark === 'dot' && mark.note?.startsWith(name) ? [mark.at[1]] : []));
    expect(Math.max(...of('D42-2401'))).toBeLessThan(Math.min(...of('D42-2404')));
  });

  it('puts a bound where its value lies, and points to the side on which future units lie', () => {
    const one = comparison({ ...input, axes: [mass] });
    const place = (mark: Mark | undefined) => (mark?.mark === 'line' ? (mark.points[0]?.[0] ?? 0) : 0);
    const [lower, upper] = ['lower', 'upper'].map((side) => place(parts(one.marks, `${side} prediction bound`)[0]));
    // From the items, 21 g apart, to the bounds, 20.7 g apart.
    const items = parts(one.marks, 'item').flatMap((mark) => (mark.mark === 'area' ? [mark.points[0]?.[0] ?? 0] : []));
    const perGram = ((items[1] ?? 0) - (items[0] ?? 0)) / 21;
    expect((upper ?? 0) - (lower ?? 0)).toBeCloseTo(20.7 * perGram, 6);
    const corners = parts(one.marks, 'corner').flatMap((mark) => (mark.mark === 'line' ? [mark.points] : []));
    expect(corners.map(([from, to]) => Math.sign((to?.[0] ?? 0) - (from?.[0] ?? 0)))).toEqual([1, 1, -1, -1]);
  });

  it('tells bounds and limits apart by their strokes, and each with its number', () => {
    const texts = scene.marks.flatMap((mark) => (mark.mark === 'text' ? [mark.text.replaceAll('\u202f', ' ')] : []));
    expect(texts).toContain('lower bound, 99.2 %: 1 611 kPa');
    expect(texts).toContain('External limit OCF-B1 rev. 2: 1 500 kPa');
    const strokes = ['lower prediction bound', 'external limit', 'internal limit'].flatMap((part) =>
      parts(scene.marks, part).flatMap((mark) =>
        mark.mark === 'line' ? [`${mark.stroke.width} ${mark.stroke.dash ?? 'whole'}`] : [],
      ),
    );
    expect(new Set(strokes).size).toBe(3);
  });

  it('lets no stroke run through its own words, also where they find no room beside it', () => {
    const label = 'Internal limit SALTMARSH-TOURING-RIMS-F3 rev. 1';
    const narrow = comparison({
      ...input,
      width: FIGURE_WIDTH.narrow,
      axes: [{ ...burst, limits: [{ label, external: false, value: 1600, conforms: 'at or above' }] }],
    });
    const [words] = parts(narrow.marks, 'limit label').filter(
      (mark) => mark.mark === 'text' && mark.text.startsWith('Internal limit'),
    );
    if (words?.mark !== 'text') throw new Error('The limit has words.');
    const [from, baseline] = words.at;
    const startOf = (part: string) =>
      parts(narrow.marks, part).flatMap((mark) => (mark.mark === 'line' ? [mark.points[0] ?? [0, 0]] : []));
    const [[x] = [0]] = startOf('internal limit');
    expect(x).toBeGreaterThan(from);
    expect(x).toBeLessThan(from + textWidth(words.text, words.size));
    const heads = startOf('leader').flatMap(([at, head]) => (at === x ? [head] : []));
    expect(heads).toHaveLength(1);
    expect(heads[0]).toBeGreaterThan(baseline);
  });

  it('prints a bound on its side of an item that lies a hair away from it', () => {
    const close = comparison({
      ...input,
      axes: [{ ...mass, items: { title: 'items', lanes: [exact('X-1', 443.08)] } }],
    });
    const texts = close.marks.flatMap((mark) => (mark.mark === 'text' ? [mark.text.replaceAll('\u202f', ' ')] : []));
    expect(texts).toContain('lower bound, 98.3 %: 443.1 g');
  });

  it('tells a bound that lies far away from every value in words and presses nothing together for it', () => {
    const bounds = [{ side: 'lower', value: -5000, level: '99.2 %' } as const];
    const far = comparison({ ...input, axes: [{ ...burst, bounds }] });
    expect(parts(far.marks, 'lower prediction bound')).toEqual([]);
    const texts = far.marks.flatMap((mark) => (mark.mark === 'text' ? [mark.text.replaceAll('\u202f', ' ')] : []));
    expect(texts.filter((text) => text.startsWith('lower bound'))).toEqual([
      'lower bound, 99.2 %: \u22125 000 kPa, outside the picture',
    ]);
  });

  it('has a place for a thousand reference units in two hundred lots and two hundred items on one page', () => {
    const lots = Array.from({ length: 200 }, (_, at) => lot(`L-${at}`, [1800, 1801, 1802, 1803, 1800 + (at % 50)]));
    const items = Array.from({ length: 200 }, (_, at) => exact(`X-${at}`, 1700 + at));
    const many = comparison({
      ...input,
      axes: [{ ...burst, reference: { title: 'reference', lanes: lots }, items: { title: 'items', lanes: items } }],
    });
    expect(parts(many.marks, 'reference')).toHaveLength(1000);
    expect(parts(many.marks, 'item')).toHaveLength(200);
    expect(many.height).toBeLessThan(560);
  });

  it('is one scene for both papers', () => {
    expect(sceneToPaths(scene)).toHaveLength(scene.marks.length);
  });

  it.each(Object.entries(FIGURE_WIDTH))('is drawn as in the stored picture at the %s width', async (name, width) => {
    await expect(sceneToSvg(comparison({ ...input, width }), { theme: 'light' })).toMatchFileSnapshot(
      `./pictures/comparison${name === 'wide' ? '' : `-${name}`}.svg`,
    );
  });
});
