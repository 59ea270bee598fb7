import { wordsNotToClaim } from '@breakbook/acceptance';
import type { Comparison, ComparisonResult } from '@breakbook/lab';
import { beforeAll, describe, expect, it } from 'vitest';
import { needs, told } from '../../../../../tests/tools.js';
import { attachedJson, composeDocument } from '../../compose-document.js';
import { inventedComparison } from '../../fixtures/invented-comparison.js';
import { recomputeDocument } from '../../recompute/recompute-document.js';
import { printingOf } from '../../words/printing.js';
import { type ComparisonReportContent, comparisonReportContent } from './content.js';
import { comparisonReport } from './index.js';

let content: ComparisonReportContent;
let revised: ComparisonReportContent;
beforeAll(() => {
  content = inventedComparison();
  revised = inventedComparison({ revised: true });
});

/** The same content made anew from changed parts. */
function madeOf(change: (given: ComparisonReportContent) => void): ComparisonReportContent {
  const { identity, document: _, form: __, software: ___, ...given } = structuredClone(content);
  const whole = { ...given, identity } as ComparisonReportContent;
  change(whole);
  const { identity: document, ...rest } = whole;
  return comparisonReportContent({ ...rest, document });
}

const textsOf = (value: unknown): string[] => {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => (key === 'marks' ? [] : textsOf(one)));
};
const sheetText = (one: ComparisonReportContent) => textsOf(comparisonReport(one, printingOf(one))).join('\n');

describe('what comes into a comparison report', () => {
  it('is the case as its schemas name it: a note that only some may read is refused wherever it hides', () => {
    expect(madeOf(() => undefined)).toEqual(content);
    expect(() => madeOf((one) => Object.assign(one.case, { protectedNotes: ['under the third decal'] }))).toThrow(
      /protectedNotes/,
    );
    expect(() =>
      madeOf((one) => Object.assign(one.case.observations[0] ?? {}, { covert: 'under the third decal' })),
    ).toThrow(/covert/);
    const inRun = madeOf((one) => Object.assign(one.case.runs[0] ?? {}, { covert: 'under the third decal' }));
    expect(attachedJson(inRun)).not.toContain('third decal');
  });

  it('is nothing before conclusions are locked, where persons are blinded', () => {
    expect(() =>
      madeOf((one) => {
        delete one.locked;
      }),
    ).toThrow(/are not locked/);
  });

  it('is the result of this very revision', () => {
    expect(() => madeOf(({ result }) => Object.assign(result.comparison, { revision: 7 }))).toThrow(
      'D42-C1 rev. 7, the case of D42-C1 rev. 1',
    );
  });
});

describe('a comparison report', () => {
  it('has a section for every declared characteristic, whatever it showed, and always says what was not examined', () => {
    const { sections } = comparisonReport(content, printingOf(content));
    const headings = sections.map(({ heading }) => heading);
    for (const { title } of content.case.comparison.characteristics)
      expect(headings).toContain(`Does it agree: ${title}?`);
    expect(sheetText(content)).toMatch(/NOT EXAMINED\n.*resin family and fibre volume/s);
    expect(sheetText(content)).toMatch(/none: every specimen and run gave a value/);
  });

  it('marks what was declared later, and what no longer is', () => {
    expect(sheetText(content)).not.toMatch(/LATER|AFTER it/);
    expect(sheetText(revised)).toMatch(/Mass of the rim\nDECLARED LATER, in revision 2/);
    expect(sheetText(revised)).toContain('AFTER it');
    const changed = structuredClone(revised);
    const [first] = changed.case.earlier ?? [];
    const [burst] = first?.characteristics ?? [];
    Object.assign(burst ?? {}, { differenceThatMatters: 100 });
    first?.characteristics.push({
      ...(burst as Comparison['characteristics'][number]),
      name: 'width',
      title: 'Inner width',
    });
    expect(sheetText(changed)).toMatch(/Burst pressure\nCHANGED LATER, in revision 2/);
    expect(sheetText(changed)).toContain('Declared in revision 1 and left out since: Inner width.');
  });

  it('shows what was measured of a feature, side by side with the reference, also where no characteristic is made of it', () => {
    expect(sheetText(content)).toMatch(/Mass of the rim\nOf\nSeen[\s\S]*?448.4 g to 455.1 g[\s\S]*?391.5 g/);
  });

  it('says what the codes of failure modes mean', () => {
    const { failureModes = [] } = content.methods.find(({ method }) => method === 'BURST') ?? {};
    const meaning = failureModes.find(({ code }) => code === 'BF-FLG')?.meaning;
    expect(meaning).toBeDefined();
    expect(sheetText(content)).toContain(`BF-FLG: ${meaning}`);
  });

  it('shows a gap in custody as a gap, and every step that changed an item', () => {
    expect(content.result.gaps.map(({ specimen }) => specimen)).toEqual(['X-2']);
    expect(sheetText(content)).toMatch(/Gaps in custody\n.*X-2 \(D42-24-901\)/s);
    expect(sheetText(content)).toContain(
      'Item X-2: Cem Aydın had it, and Ada Lindqvist gave it away; who had it is not recorded between 2031-02-06 09:00 and 2031-02-10 08:30.',
    );
    const order = sheetText(content).match(/YES: it was not afterwards what it was before/g);
    // A section cut of each item, and a run that broke it.
    expect(order).toHaveLength(4);
  });

  it('says in German all that this program said of it, and quotes nothing', () => {
    const print = { paper: 'A4', language: 'de', units: 'as kept' } as const;
    for (const one of [content, revised]) expect(sheetText({ ...one, print })).not.toMatch(/\(englisch\)/);
    expect(sheetText({ ...content, print })).toMatch(
      /Burst pressure von Gegenstand X-1, 1.288 kPa, liegt unter der Vorhersageschranke zu \d\d,\d+ %, 1.\d{3} kPa, der Referenz \(n = 12, 3 Lose\)/,
    );
  });

  it('gives limits the confidence they have: two one-sided tests at a level speak with limits at twice it', () => {
    const shown = (tool: 'equivalence' | 'Welch') => {
      const one = structuredClone(content);
      const [found] = one.result.characteristics;
      Object.assign(found ?? {}, {
        level: 0.02,
        effect: { difference: -10.3, limits: [-40.5, 19.9] },
        tool:
          tool === 'Welch'
            ? { kind: 'two groups', test: 'Welch', side: 'either', unit: 'specimens' }
            : { kind: 'equivalence', margin: [-100, 100], unit: 'specimens' },
      });
      return sheetText(one);
    };
    expect(shown('Welch')).toMatch(/−10 kPa[^\n]*; 98 % limits −41 kPa/);
    expect(shown('equivalence')).toMatch(/−10 kPa[^\n]*; 96 % limits −41 kPa/);
  });

  it('claims nothing that a lab cannot know, in either language', () => {
    for (const language of ['en', 'de'] as const) {
      const print = { paper: 'A4', language, units: 'as kept' } as const;
      // What it does not show it must name.
      const denied = ['common origin', 'gemeinsame herkunft'];
      const claimed = wordsNotToClaim(sheetText({ ...content, print }));
      expect(claimed.filter(({ word }) => !denied.includes(word.toLowerCase()))).toEqual([]);
    }
  });
});

describe('a comparison report worked out again', () => {
  it('is identical, every number of it', async () => {
    const found = await recomputeDocument({ content: JSON.parse(attachedJson(content)) });
    expect(found.differences).toEqual([]);
    expect(found.numbers).toBeGreaterThan(150);
    expect(found.filesRead).toBe(false);
    expect(found.since.methods).toEqual(['BURST rev. 3']);
  });

  const first = (result: ComparisonResult) => {
    const [found] = result.characteristics;
    if (!found) throw new Error('There is a characteristic.');
    return found;
  };
  /** The next double: the one before plus its spacing. */
  const nudged = (value: number) => value + 2 ** (Math.floor(Math.log2(Math.abs(value))) - 52);
  it.each<[string, (altered: ComparisonReportContent) => void]>([
    ['the last bit of p', ({ result }) => Object.assign(first(result), { p: nudged(first(result).p as number) })],
    [
      'the last bit of a bound',
      ({ result }) =>
        Object.assign(first(result), { bounds: { lower: nudged(first(result).bounds?.lower as number) } }),
    ],
    ['a finding', ({ result }) => Object.assign(first(result), { finding: 'D' })],
    ['a sentence', ({ result }) => void result.sentences.splice(1, 1)],
    ['an item’s level', ({ result }) => Object.assign(result.items[0] ?? {}, { level: 'C' })],
    ['a gap that was closed', ({ result }) => void result.gaps.pop()],
    ['what was not examined', ({ result }) => void result.notExamined.pop()],
    ['a characteristic left out', ({ result }) => void result.characteristics.pop()],
    [
      'a value that was measured',
      ({ case: { runs } }) => Object.assign(runs.at(-1)?.results[0]?.value ?? {}, { value: 1500 }),
    ],
    [
      'a mass that was weighed',
      ({ case: { observations } }) => Object.assign(observations[1]?.quantity ?? {}, { value: 470 }),
    ],
    ['what was declared', ({ case: { comparison } }) => Object.assign(comparison, { confidence: 0.99 })],
  ])('shows %s that was altered before it was signed', async (_, alter) => {
    const altered = JSON.parse(attachedJson(content)) as ComparisonReportContent;
    alter(altered);
    expect((await recomputeDocument({ content: altered })).differences.length).toBeGreaterThan(0);
  });
});

needs('pdftotext')('a comparison of 200 items with 1 000 units', () => {
  it('has every one of them on its pages', async () => {
    const small = structuredClone(content);
    const many = { ...small, ...inCrowd(small) };
    const bytes = await composeDocument('comparison report', many, { paper: 'Letter' });
    const pages = told('pdftotext', bytes, (file) => ['-layout', file, '-'])
      .split('\f')
      .slice(0, -1);
    expect(pages.length).toBeGreaterThan(60);
    const all = pages.join('\n');
    for (const name of ['I-1 ', 'I-200 ', 'U-1 ', 'U-1000 ']) expect(all).toContain(name);
    expect(pages.at(-1)).toContain('End of comparison report CR-42-1 rev. 1');
  });
});

/** The small comparison told over and over: how it is laid out does not rest on what it came to. */
function inCrowd({ case: given, result }: ComparisonReportContent): Pick<ComparisonReportContent, 'case' | 'result'> {
  const { reference } = given;
  if (!reference) throw new Error('There is a reference.');
  const crowd = <T>(count: number, from: readonly T[], named: (one: T, index: number) => T): T[] =>
    Array.from({ length: count }, (_, index) => named(from[index % from.length] as T, index));
  const unit = <T extends { specimen: string; lot: string }>(one: T, index: number): T => ({
    ...one,
    specimen: `U-${index + 1}`,
    lot: `L-${1 + Math.floor(index / 25)}`,
  });
  const item = <T extends { specimen: string }>(one: T, index: number): T => ({ ...one, specimen: `I-${index + 1}` });
  return {
    case: { ...given, reference: { ...reference, units: crowd(1000, reference.units, unit) } },
    result: {
      ...result,
      items: crowd(200, result.items, item),
      characteristics: result.characteristics.slice(0, 1).map((one) => ({
        ...one,
        reference: crowd(1000, one.reference, unit),
        items: crowd(200, one.items, item),
        each: crowd(200, one.each, item),
        lots: 40,
      })),
      features: result.features.map((one) => ({ ...one, items: crowd(200, one.items, item) })),
    },
  };
}
