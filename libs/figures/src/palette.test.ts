import { describe, expect, it } from 'vitest';
import { PALETTES } from './palette.js';
import type { Ink } from './scene.js';

/** Relative luminance and contrast as WCAG 2.2 defines them (W3C Recommendation, "relative luminance", "contrast ratio"). */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((channel) => (channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe('palettes', () => {
  const inks: Ink[] = ['ink', 'petrol', 'limit', 'muted', 'good', 'caution', 'bad', 'open'];
  for (const [name, palette] of Object.entries(PALETTES))
    it.each(inks)(`${name}: %s stands out from the paper by 4.5 : 1 or more (WCAG 2.2, 1.4.3)`, (ink) => {
      expect(contrast(palette[ink], palette.paper)).toBeGreaterThanOrEqual(4.5);
    });

  it('ink on the wash of a band is readable too', () => {
    for (const palette of Object.values(PALETTES)) expect(contrast(palette.ink, palette.wash)).toBeGreaterThan(4.5);
  });
});
