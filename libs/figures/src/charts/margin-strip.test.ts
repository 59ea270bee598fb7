import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../papers/svg.js';
import { FIGURE_WIDTH, type LineMark, type Mark, type Scene } from '../scene.js';
import { type MarginStripInput, marginStrip, stripScale } from './margin-strip.js';

const quantity = {
  title: 'Burst pressure',
  unit: 'kPa',
  reference: 'gauge',
  decimals: 0,
  second: { unit: '[psi]', decimals: 0 },
} as const;

/** Invented numbers of the size that road rims have. */
const lot: MarginStripInput = {
  title: 'Burst pressure of lot 2407 against its limits',
  alt: 'Eight specimens between 1 690 and 2 040 kPa, all above both limits; the lower bound is 1 578 kPa.',
  caption: '',
  quantity,
  specimens: [
    { label: 'D42-01', value: { kind: 'exact', value: 1842 }, inClaim: true },
    { label: 'D42-02', value: { kind: 'exact', value: 1845 }, inClaim: true },
    { label: 'D42-03', value: { kind: 'atLeast', value: 1790 }, inClaim: true },
    { label: 'D42-04', value: { kind: 'between', lower: 1900, upper: 1950 }, inClaim: true },
    { label: 'D42-05', value: { kind: 'exact', value: 1690 }, inClaim: true },
    { label: 'D42-06', value: { kind: 'exact', value: 2040 }, inClaim: true },
    { label: 'D42-07', value: { kind: 'exact', value: 1966 }, inClaim: true },
    { label: 'D42-08', value: { kind: 'exact', value: 1760 }, inClaim: false },
  ],
  limits: [
    { label: 'Federation minimum OCF-B1 rev. 2', external: true, value: 1500, conforms: 'at or above' },
    { label: 'Internal floor SW-F3 rev. 1', external: false, value: 1620, conforms: 'at or above' },
  ],
  bounds: [{ label: 'Lower bound', value: 1578, estimate: 1712, against: 1500 }],
};

function crowd(n: number): MarginStripInput {
  // Weibull quantiles of shape 18 and scale 1 950 at (i - 0.5) / n: a crowd without chance.
  const specimens = Array.from({ length: n }, (_, i) => ({
    label: `S${i}`,
    value: { kind: 'exact' as const, value: 1950 * (-Math.log1p(-(i + 0.5) / n)) ** (1 / 18) },
    inClaim: true,
  }));
  return { ...lot, specimens };
}

const parts = (scene: Scene, part: string) => scene.marks.filter((mark) => mark.part === part);
const xs = (marks: Mark[]) => marks.map((mark) => ('at' in mark ? mark.at[0] : mark.points[0]?.[0]));

describe('marginStrip', () => {
  const scene = marginStrip(lot);
  const scale = stripScale(lot, FIGURE_WIDTH.wide);

  it('puts every value at its place on one linear scale', () => {
    expect(xs(parts(scene, 'specimen'))).toEqual([1842, 1845, 1790, 1900, 1690, 2040, 1966].map((v) => scale(v)));
    expect(xs(parts(scene, 'specimen outside the claim'))).toEqual([scale(1760)]);
    expect(xs(parts(scene, 'external limit'))).toEqual([scale(1500)]);
    expect(xs(parts(scene, 'internal limit'))).toEqual([scale(1620)]);
    expect(scale(1700) - scale(1600)).toBeCloseTo(scale(2000) - scale(1900), 9);
  });

  it('draws the bound as a wedge whose tip is the bound and whose end is the estimate', () => {
    const [wedge] = parts(scene, 'bound');
    if (wedge?.mark !== 'area') throw new Error('no wedge');
    expect(wedge.points.map(([x]) => x)).toEqual([scale(1578), scale(1712), scale(1712)]);
  });

  const labels = (one: Scene) => parts(one, 'bound label').map((mark) => (mark.mark === 'text' ? mark.text : ''));
  const withBound = (value: number, against = 1500) =>
    labels(marginStrip({ ...lot, bounds: [{ label: 'Lower bound', value, against }] })).join('; ');

  it('writes the gap over its dimension line and the bound beside its wedge, short where room is scarce', () => {
    expect(labels(scene)).toEqual(['+78 kPa', 'Lower bound: 1 578 kPa (228.8 psi)']);
    expect(labels(marginStrip({ ...lot, width: FIGURE_WIDTH.narrow }))).toEqual(['+78 kPa; Lower bound: 1 578 kPa']);
  });

  it('writes a bound rounded down, so that print never claims more, and the gap with it', () => {
    expect(withBound(1578.9)).toContain('1 578 kPa');
    expect(withBound(1578.9)).toContain('+78 kPa');
    expect(withBound(1480.6)).toContain('−20 kPa');
  });

  it('never writes a bound on the other side of its limit than it lies', () => {
    expect(withBound(1499.96)).toContain('1 499.9');
    expect(withBound(1500)).toContain('1 500 kPa');
  });

  it('tells external from internal limits by form: full height on a foot against half height', () => {
    const height = (part: string) => {
      const [stroke] = parts(scene, part) as LineMark[];
      return Math.abs((stroke?.points[0]?.[1] ?? 0) - (stroke?.points[1]?.[1] ?? 0));
    };
    expect(height('external limit')).toBeCloseTo(2 * height('internal limit'), 6);
    expect(xs(parts(scene, 'foot'))).toEqual([scale(1500) - 5]);
  });

  it('shows "at least" as an arrow to the right, "at most" to the left', () => {
    const tips = (kind: 'atLeast' | 'atMost') => {
      const one = { ...lot, specimens: [{ label: 'A', value: { kind, value: 1800 }, inClaim: true }] };
      const [shaft] = parts(marginStrip(one), 'arrow') as LineMark[];
      return (shaft?.points[1]?.[0] ?? 0) - stripScale(one, FIGURE_WIDTH.wide)(1800);
    };
    expect(tips('atLeast')).toBeGreaterThan(5);
    expect(tips('atMost')).toBeLessThan(-5);
  });

  it('keeps dots from covering one another while there is room', () => {
    const dots = parts(marginStrip(crowd(300)), 'specimen').flatMap((mark) => (mark.mark === 'dot' ? [mark] : []));
    expect(dots).toHaveLength(300);
    const room = dots.flatMap((a, i) =>
      dots.slice(i + 1).map((b) => Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) - a.radius - b.radius),
    );
    expect(Math.min(...room)).toBeGreaterThan(0);
  });

  it('is drawn as in the stored picture', async () => {
    await expect(sceneToSvg(scene, { theme: 'light' })).toMatchFileSnapshot('./pictures/margin-strip.svg');
    const narrow = marginStrip({ ...lot, width: FIGURE_WIDTH.narrow });
    await expect(sceneToSvg(narrow, { theme: 'light' })).toMatchFileSnapshot('./pictures/margin-strip-narrow.svg');
  });
});
