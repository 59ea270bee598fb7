import { describe, expect, it } from 'vitest';
import { sceneToSvg } from '../papers/svg.js';
import { FIGURE_WIDTH } from '../scene.js';
import { type StaircaseInput, staircase } from './staircase.js';

/** Up after it held, down after it broke, in steps of 5 J. */
const strikes = [60, 65, 70, 65, 60, 65, 70, 75, 70, 65].map((level, index) => ({
  label: `D42-${index + 1}`,
  level,
  broke: [70, 75].includes(level) || index === 3,
}));
const input: StaircaseInput = {
  title: 'Strikes in order',
  alt: 'Ten strikes between 60 and 75 joules.',
  caption: '',
  quantity: { title: 'Energy', unit: 'J', decimals: 0 },
  strikes,
  estimate: 67.1,
};

describe('staircase', () => {
  const scene = staircase(input);
  const dots = scene.marks.flatMap((mark) => (mark.mark === 'dot' && mark.note ? [mark] : []));

  it('shows each strike once, in order, and tells by form which broke', () => {
    expect(dots.map(({ form }) => form === 'disc')).toEqual(strikes.map(({ broke }) => broke));
    const places = dots.map(({ at: [x] }) => x);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(new Set(dots.filter((_, index) => strikes[index]?.level === 65).map(({ at }) => at[1])).size).toBe(1);
  });

  it('draws no estimate where there is none, and an empty one without a strike', () => {
    const { estimate: _, ...rest } = input;
    expect(staircase(rest).marks.some(({ part }) => part === 'estimate')).toBe(false);
    expect(staircase({ ...rest, strikes: [] }).marks.some(({ part }) => part === 'path')).toBe(false);
  });

  it.each(Object.entries(FIGURE_WIDTH))('is drawn as in the stored picture at the %s width', async (name, width) => {
    await expect(sceneToSvg(staircase({ ...input, width }), { theme: 'light' })).toMatchFileSnapshot(
      `./pictures/staircase${name === 'wide' ? '' : `-${name}`}.svg`,
    );
  });
});
