import { folded, nearestName } from '../files/nearest-name.js';
import type { ProblemList } from '../files/problem-list.js';

/** Columns of a table of old results: those it must have, and those it may have. */
export const NEEDED = [
  'product',
  'lot',
  'specimen',
  'test',
  'characteristic',
  'unit',
  'outcome',
  'value',
  'date',
  'rig',
  'source',
  'validity',
] as const;
const ALLOWED = ['lower', 'upper', 'reference', 'remark'] as const;

export type OldColumn = (typeof NEEDED)[number] | (typeof ALLOWED)[number];

const KNOWN: readonly OldColumn[] = [...NEEDED, ...ALLOWED];

/** Where each column stands, from 0. Every column must be known: what nobody reads is not silently left out. */
export function columnsIn(cells: readonly string[], line: number, problems: ProblemList): Map<OldColumn, number> {
  const places = new Map<OldColumn, number>();
  for (const [index, cell] of cells.entries()) {
    const place = { line, column: index + 1 };
    const name = KNOWN.find((one) => folded(one) === folded(cell));
    if (name === undefined) {
      const near = nearestName(cell, KNOWN);
      problems.add(cell.trim() === '' ? 'header.name-invalid' : 'header.unknown-channel', place, () => ({
        sentence: cell.trim() === '' ? 'this column has no name.' : 'no column of this name is known here.',
        found: cell,
        expected: near ?? `one of ${KNOWN.join(', ')}`,
        action: near
          ? `If ${near} is meant, write that.`
          : 'Rename the column, or take it out; what it says can go into remark.',
      }));
    } else if (places.has(name))
      problems.add('header.duplicate-channel', { ...place, channel: name }, () => ({
        sentence: 'this column is there twice.',
        found: cell,
        action: 'Keep the one that is right.',
      }));
    else places.set(name, index);
  }
  for (const name of NEEDED)
    if (!places.has(name))
      problems.add('header.missing-channel', { line }, () => ({
        sentence: `the column ${name} is missing.`,
        expected: NEEDED.join(','),
        action: EMPTY_WORDS[name] ?? 'Add it, with a cell in every row.',
      }));
  return places;
}

const EMPTY_WORDS: Partial<Record<OldColumn, string>> = {
  date: 'Add it; write unknown where the day is not known.',
  rig: 'Add it; write unknown where the rig is not known.',
  validity: 'Add it; write unknown where nobody told.',
};
