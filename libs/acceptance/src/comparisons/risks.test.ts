import fs from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  type CalledShare,
  calledWrongly,
  type FoundShare,
  foundAtSmallest,
  type StudiedDesign,
} from '../fixtures/comparison-study.js';

/** Comparisons a row: few here; `npm run bench -- --comparisons` makes ten thousand, and writes docs/comparison-risks.md. */
const COMPARISONS = Number(process.env.BREAKBOOK_COMPARISONS ?? 100);
const LONG = process.env.BREAKBOOK_COMPARISONS !== undefined;
const PAGE = process.env.BREAKBOOK_COMPARISON_RISKS;

const THREE = { lots: [4, 3, 3], items: 2 };
const FIVE = { lots: [2, 2, 2, 2, 2], items: 3 };
const design = (name: string, base: typeof THREE, share: number): StudiedDesign => ({ name, ...base, share });

const GENUINE: StudiedDesign[] = LONG
  ? [0, 0.3, 0.6, 0.9].flatMap((share) => [
      design('10 units of 3 lots, 2 items', THREE, share),
      design('10 units of 5 lots, 3 items', FIVE, share),
      ...(['burst', 'mass', 'heat'] as const).map((only) => ({
        ...design(`10 units of 3 lots, 1 item, ${only} alone`, { ...THREE, items: 1 }, share),
        only,
      })),
    ])
  : [design('10 units of 3 lots, 2 items', THREE, 0.6)];
const DIFFERENT: StudiedDesign[] = LONG
  ? [0, 0.3, 0.6].flatMap((share) => [
      design('10 units of 3 lots, 1 item', { ...THREE, items: 1 }, share),
      design('10 units of 5 lots, 1 item', { ...FIVE, items: 1 }, share),
    ])
  : [design('10 units of 5 lots, 1 item', { ...FIVE, items: 1 }, 0.3)];

const print = (text: string) => {
  if (PAGE) fs.appendFileSync(PAGE, `${text}\n`);
};
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

describe('comparisons in which nothing differs', () => {
  beforeAll(() =>
    print(
      '\n## Items made as the reference is\n\n| reference and items | share of variance between lots | comparisons | declared at most | called not consistent | with a characteristic not evaluated |\n| --- | --- | --- | --- | --- | --- |',
    ),
  );
  it.each(GENUINE)(
    'call out no more than declared: $name, share $share between lots',
    (one) => {
      const found: CalledShare = calledWrongly(one, COMPARISONS);
      print(
        `| ${one.name} | ${percent(one.share)} | ${found.comparisons} | 5.0 % | ${percent(found.called)} | ${percent(found.undecided)} |`,
      );
      expect(found.called).toBeLessThanOrEqual(0.05 + 3 * found.error);
    },
    LONG ? 36_000_000 : 120_000,
  );
});

describe('items that differ by the smallest difference', () => {
  beforeAll(() =>
    print(
      '\n## Items that differ by the smallest difference\n\n| reference and items | share of variance between lots | comparisons | smallest difference, in total scatters | power | found | printed: a tenth below, half below, nine tenths below |\n| --- | --- | --- | --- | --- | --- | --- |',
    ),
  );
  it.each(DIFFERENT)(
    'are found with the declared power: $name, share $share between lots',
    (one) => {
      const found: FoundShare = foundAtSmallest(one, 0.9, COMPARISONS);
      print(
        `| ${one.name} | ${percent(one.share)} | ${found.comparisons} | ${found.shift.toFixed(2)} | ${percent(found.power)} | ${percent(found.found)} | ${found.printed.map((value) => value.toFixed(2)).join(', ')} |`,
      );
      expect(Math.abs(found.found - 0.9)).toBeLessThan(3.5 * Math.sqrt(0.09 / COMPARISONS) + 0.01);
    },
    LONG ? 36_000_000 : 120_000,
  );
});
