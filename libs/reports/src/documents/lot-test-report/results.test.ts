import type { Reading } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { inventedContent } from '../../fixtures/invented-lot.js';
import type { Table } from '../../parts/blocks.js';
import { resultsSection } from './results.js';

const content = inventedContent({ specimens: 3 });
const tablesOf = (given: typeof content) =>
  resultsSection(given).blocks.filter((block): block is Table => block.block === 'table');
const byPassage = (given: typeof content) => tablesOf(given).filter(({ title }) => title?.startsWith('Each passage'));

/** The same reading, its first characteristic given by each of so many passages. */
function inPassages(reading: Reading, passages: number): Reading {
  const characteristics = reading.characteristics.slice(0, 1);
  return {
    ...reading,
    passages: Array.from({ length: passages }, (_, index) => ({
      passage: index + 1,
      title: `step ${index + 1}`,
      characteristics,
    })),
  };
}

describe('results of passages', () => {
  it('stand in a row each, beside the specimen and run they belong to', () => {
    const [first, second] = content.readings;
    if (!first || !second) throw new Error('no readings');
    const rest = content.readings.slice(2);
    const [table, ...more] = byPassage({
      ...content,
      readings: [inPassages(first, 3), inPassages(second, 2), ...rest],
    });
    expect(more).toEqual([]);
    const title = first.characteristics[0]?.title;
    expect(table?.columns.map((column) => column.title)).toEqual(['Specimen', 'Passage', title]);
    expect(table?.rows.map(([run, passage]) => [run, passage])).toMatchObject(
      [first, first, first, second, second].map(({ run }, index) => [
        { under: `run ${run}` },
        { text: `${(index % 3) + 1}`, under: `step ${(index % 3) + 1}` },
      ]),
    );
    for (const [, , value] of table?.rows ?? []) expect(JSON.stringify(value)).toMatch(/\d/);
  });

  it('take no table where no run has several', () => {
    expect(byPassage(content)).toEqual([]);
  });
});
