import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../papers/svg.js';
import { FIGURE_WIDTH, type Scene } from '../scene.js';
import { type ChanceCurvesInput, chanceCurves } from './chance-curves.js';

const SHARES = [0, 0.005, 0.01, 0.02, 0.03, 0.05, 0.075, 0.1, 0.15, 0.2, 0.3, 0.4];
/** (1 - p)^n: the chance that none of n fails. */
const noneOf = (n: number) => SHARES.map((share) => ({ share, chance: (1 - share) ** n }));
const oneOf46 = SHARES.map((share) => ({ share, chance: (1 - share) ** 46 + 46 * share * (1 - share) ** 45 }));

const input: ChanceCurvesInput = {
  title: 'How often does a lot pass?',
  alt: 'All curves fall; at ten percent below the limit each is at five percent or less.',
  caption: '',
  curves: [
    { label: 'zero failures (29)', points: noneOf(29) },
    { label: 'failures at most 1 (46)', points: oneOf46 },
    { label: 'zero failures, raised load (10)', points: noneOf(31) },
    { label: 'five survivors (5)', points: noneOf(5) },
  ],
  edge: { label: 'what the claim denies', share: 0.1 },
};
const curves = (scene: Scene) =>
  scene.marks.flatMap((mark) => (mark.mark === 'line' && mark.part === 'curve' ? [mark] : []));

describe('chanceCurves', () => {
  const scene = chanceCurves(input);

  // The binomial chance that none of 29 fails is 0.0471 where a tenth does (Clopper and Pearson 1934; by hand).
  it('draws each chance at its height', () => {
    const [first] = curves(scene);
    const edge = scene.marks.find((mark) => mark.part === 'edge');
    if (edge?.mark !== 'line') throw new Error('no edge');
    const [foot, top] = edge.points;
    const at = first?.points.find(([x]) => Math.abs(x - (foot?.[0] ?? 0)) < 1e-9);
    const height = ((foot?.[1] ?? 0) - (at?.[1] ?? 0)) / ((foot?.[1] ?? 0) - (top?.[1] ?? 0));
    expect(height).toBeCloseTo(0.0471, 4);
  });

  it('tells no two curves apart by colour alone', () => {
    const strokes = curves(scene).map(({ stroke }) => `${stroke.ink} ${stroke.dash ?? 'whole'}`);
    expect(new Set(strokes).size).toBe(4);
    expect(() => chanceCurves({ ...input, curves: [...input.curves, ...input.curves] })).toThrow('at most 4');
  });

  it('ends every curve where the picture ends', () => {
    const narrow = chanceCurves({ ...input, width: FIGURE_WIDTH.narrow, upTo: 0.12 });
    for (const { points } of curves(narrow))
      for (const [x] of points) expect(x).toBeLessThanOrEqual(narrow.width - 7.99);
  });

  it.each(Object.entries(FIGURE_WIDTH))('is drawn as in the stored picture at the %s width', async (name, width) => {
    await expect(sceneToSvg(chanceCurves({ ...input, width }), { theme: 'light' })).toMatchFileSnapshot(
      `./pictures/chance-curves${name === 'wide' ? '' : `-${name}`}.svg`,
    );
  });
});
