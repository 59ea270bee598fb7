import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { Refusal } from '../../problems.js';
import type { ComparisonDocument } from '../case.js';
import { readComparisonFolder } from './read-comparison-folder.js';

const root = fileURLToPath(new URL('../../../../../sample-runs/dunlin-42-doubtful', import.meta.url));
const names = fs.readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.json'));
const SAMPLE = new Map(
  names.map((name) => [name.split(path.sep).join('/'), new Uint8Array(fs.readFileSync(path.join(root, name)))]),
);
const NAME = 'comparison.json';

function json<T>(name: string): T {
  return JSON.parse(new TextDecoder().decode(SAMPLE.get(name))) as T;
}

/** The sample with one document written otherwise. */
function withDocument<T>(name: string, change: (document: T) => void): Map<string, Uint8Array> {
  const document = json<T>(name);
  change(document);
  return new Map(SAMPLE).set(name, new TextEncoder().encode(JSON.stringify(document)));
}

function refusalOf(documents: ReadonlyMap<string, Uint8Array>, name?: string): Refusal {
  try {
    readComparisonFolder(documents, name);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('was taken');
}

/** Code, file and place of every problem of the sample's comparison, changed. */
function problemsOf(change: (document: ComparisonDocument) => void) {
  return refusalOf(withDocument(NAME, change)).problems.map(({ code, file, pointer }) => ({ code, file, pointer }));
}

function itemsOf({ comparison }: ComparisonDocument): string[] {
  if (comparison.compared.what !== 'items with a reference') throw new Error('the sample compares items');
  return comparison.compared.items;
}

const first = <T>(list: readonly T[] | undefined): T => {
  const [one] = list ?? [];
  if (one === undefined) throw new Error('the sample has one');
  return one;
};

describe('readComparisonFolder', () => {
  it('reads each comparison of a folder with the lots beside it', () => {
    for (const name of [NAME, 'second-pair.json']) {
      const { document, lots } = readComparisonFolder(SAMPLE, name);
      expect(document).toEqual(json(name));
      expect(lots.map(({ folder }) => folder)).toEqual(lots.map(({ bundle }) => bundle.lot.lot));
      expect(lots).toHaveLength(5);
    }
  });

  it('says what is missing', () => {
    expect(refusalOf(new Map()).problems).toMatchObject([{ code: 'file.missing', file: NAME }]);
    expect(refusalOf(SAMPLE, 'third-pair.json').problems).toMatchObject([{ file: 'third-pair.json' }]);
    const alone = new Map([[NAME, SAMPLE.get(NAME) ?? new Uint8Array()]]);
    expect(refusalOf(alone).problems).toMatchObject([{ code: 'file.missing', file: 'lots' }]);
    const cut = new Map(SAMPLE);
    cut.delete('lots/D42R-MK/runs.json');
    expect(refusalOf(cut).problems).toMatchObject([{ code: 'file.missing', file: 'lots/D42R-MK/runs.json' }]);
  });

  it('names the place of what the schema does not take', () => {
    const wrong = withDocument<{ comparison: Record<string, unknown> }>(NAME, ({ comparison }) => {
      comparison.confidence = 95;
    });
    expect(refusalOf(wrong).problems).toMatchObject([
      { file: NAME, pointer: '/comparison/confidence', detail: expect.stringContaining('0.95') },
    ]);
  });

  const unknown = (pointer: string) => ({ code: 'meta.unknown', file: NAME, pointer });
  const conflict = (pointer: string) => ({ code: 'state.conflict', file: NAME, pointer });

  it.each<[string, (document: ComparisonDocument) => void, object]>([
    [
      'an item that is in no lot',
      (document) => itemsOf(document).splice(1, 1, 'K-0000'),
      unknown('/comparison/compared/items/1'),
    ],
    [
      'an item that is of the reference',
      (document) => itemsOf(document).splice(1, 1, first(document.reference?.units).specimen),
      conflict('/comparison/compared/items/1'),
    ],
    [
      'a unit that is in no lot',
      ({ reference }) => {
        first(reference?.units).specimen = 'X-1';
      },
      unknown('/reference/units/0/specimen'),
    ],
    [
      'a unit of another lot',
      ({ reference }) => {
        first(reference?.units).lot = 'D42R-2606';
      },
      conflict('/reference/units/0/lot'),
    ],
    [
      'a unit under another serial',
      ({ reference }) => {
        first(reference?.units).serial = 'D42R-2603-999';
      },
      conflict('/reference/units/0/serial'),
    ],
    [
      'a unit of unknown making',
      (document) => {
        const [, other = ''] = itemsOf(document).splice(1, 1);
        first(document.reference?.units).specimen = other || 'K-2046';
        first(document.reference?.units).lot = 'D42R-MK';
      },
      conflict('/reference/units/0/specimen'),
    ],
    [
      'another reference than the one declared',
      ({ reference }) => {
        if (reference) reference.revision = 2;
      },
      conflict('/reference/reference'),
    ],
    [
      'no reference',
      (document) => {
        delete document.reference;
      },
      { code: 'body.missing-field', file: NAME, pointer: '/reference' },
    ],
    [
      'a reference frozen after it was declared',
      ({ reference }) => {
        if (reference) reference.frozenAt = '2026-10-30T10:00:00Z';
      },
      conflict('/reference/frozenAt'),
    ],
    [
      'variants of what is not looked at',
      ({ reference }) => {
        if (reference?.variants) reference.variants.features.weave = [];
      },
      unknown('/reference/variants/features/weave'),
    ],
    [
      'a method that no lot was tested by',
      ({ comparison }) => {
        Object.assign(first(comparison.characteristics).source, { methodRevision: 7 });
      },
      unknown('/comparison/characteristics/0/source/method'),
    ],
    [
      'a characteristic that the method does not give',
      ({ comparison }) => {
        Object.assign(first(comparison.characteristics).source, { characteristic: 'burstPressure' });
      },
      unknown('/comparison/characteristics/0/source/characteristic'),
    ],
    [
      'a unit of another kind',
      ({ comparison }) => {
        first(comparison.characteristics).unit = 'kPa';
      },
      { code: 'unit.wrong-dimension', file: NAME, pointer: '/comparison/characteristics/0/unit' },
    ],
    [
      'an observation of what is not declared',
      ({ observations }) => {
        first(observations).feature = 'weave';
      },
      unknown('/observations/0/feature'),
    ],
    [
      'an observation on nothing',
      ({ observations }) => {
        first(observations).specimen = 'X-1';
      },
      unknown('/observations/0/specimen'),
    ],
    [
      'custody of nothing',
      ({ custody }) => {
        first(custody).specimen = 'X-1';
      },
      unknown('/custody/0/specimen'),
    ],
    [
      'a person whom nobody knows',
      ({ comparison }) => {
        comparison.declaredBy = 'nobody';
      },
      unknown('/comparison/declaredBy'),
    ],
    [
      'a later revision without the one before',
      ({ comparison }) => {
        comparison.revision = 2;
        comparison.reason = 'one more characteristic';
      },
      conflict('/comparison/revision'),
    ],
  ])('refuses %s', (_, change, expected) => {
    expect(problemsOf(change)).toEqual([expected]);
  });

  it('asks for a quantity, of its kind, where a feature is compared as a number', () => {
    const at = json<ComparisonDocument>(NAME).observations.findIndex(({ feature }) => feature === 'mass');
    const changed = (to: object) =>
      problemsOf(({ observations }) => {
        const one = observations[at];
        if (!one) throw new Error('the sample weighs its wheels');
        delete one.quantity;
        Object.assign(one, to);
      });
    expect(changed({ seen: 'light' })).toEqual([
      { code: 'body.missing-field', file: NAME, pointer: `/observations/${at}/quantity` },
    ]);
    expect(changed({ quantity: { value: 1, unit: 'm' } })).toEqual([
      { code: 'unit.wrong-dimension', file: NAME, pointer: `/observations/${at}/quantity/unit` },
    ]);
  });

  it('takes a wheel as one of one lot, and lots of the product alone', () => {
    const lotFile = 'lots/D42R-2604/lot.json';
    const wrong = withDocument<{ lot: { product: string }; specimens: { specimen: string }[] }>(
      lotFile,
      ({ lot, specimens }) => {
        lot.product = 'dunlin-42';
        first(specimens).specimen = '701';
      },
    );
    const problems = refusalOf(wrong).problems;
    expect(problems).toContainEqual(
      expect.objectContaining({ code: 'state.conflict', file: lotFile, pointer: '/lot/product' }),
    );
    expect(problems).toContainEqual(
      expect.objectContaining({ code: 'state.conflict', file: lotFile, pointer: '/specimens/0/specimen' }),
    );
  });

  it('compares groups of lots that are there, each of one group', () => {
    const group = (lots: string[]) => ({ title: lots.join(' and '), lots });
    const compared = (one: string[], two: string[]) =>
      problemsOf((document) => {
        delete document.reference;
        document.comparison.compared = { what: 'two groups', first: group(one), second: group(two) };
        for (const each of document.comparison.characteristics)
          each.tool = { kind: 'two groups', test: 'Welch', side: 'either', unit: 'specimens' };
      });
    expect(compared(['D42R-2603'], ['D42R-2603', 'D42R-2699'])).toEqual([
      conflict('/comparison/compared/second/lots/0'),
      unknown('/comparison/compared/second/lots/1'),
    ]);
  });
});
