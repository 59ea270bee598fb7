import { type CharacteristicValue, Key, OldResult, type ProblemCode, shown, ToldValidity } from '@breakbook/lab';
import { QUANTITY_KINDS, type QuantityKind, readUnitName, sameDimension, unitByCode } from '@breakbook/units';
import { utcOf } from '../files/calendar.js';
import { readNumber } from '../files/number.js';
import type { ProblemList, Said } from '../files/problem-list.js';
import type { OldColumn } from './columns.js';

const OUTCOMES = { exact: 'exact', 'at least': 'atLeast', 'at most': 'atMost', between: 'between' } as const;
const UNKNOWN = 'unknown';
const LONGEST = { line: 300, remark: 4000 };

/** Reads one row. Everything wrong with it is noted at its cell; undefined where something is. */
export function oldResultIn(
  cells: readonly string[],
  line: number,
  columns: ReadonlyMap<OldColumn, number>,
  problems: ProblemList,
): OldResult | undefined {
  const before = problems.count;
  const cell = (name: OldColumn) => (cells[columns.get(name) ?? -1] ?? '').trim();
  const note = (name: OldColumn, code: ProblemCode, said: Said) => {
    const index = columns.get(name);
    const column = index === undefined ? {} : { column: index + 1 };
    problems.add(code, { line, ...column, channel: name }, () => ({ found: cell(name), ...said }));
  };
  const text = (name: OldColumn, otherwise?: string, most = LONGEST.line) => {
    const written = cell(name);
    if (written === '' && otherwise === undefined)
      note(name, 'meta.missing', {
        sentence: 'this cell is empty.',
        action: ['rig', 'date', 'validity'].includes(name)
          ? 'Write unknown where it is not known.'
          : 'Fill it in; nothing is assumed.',
      });
    if (written.length > most)
      note(name, 'meta.text-invalid', {
        sentence: `this text is longer than ${most} characters.`,
        action: 'Shorten it.',
      });
    return written;
  };
  const oneOf = <T extends string>(name: OldColumn, words: readonly T[]): T | undefined => {
    const written = cell(name);
    const word = words.find((one) => one === written);
    if (word === undefined)
      note(name, written === '' ? 'meta.missing' : 'meta.unknown', {
        sentence: written === '' ? 'this cell is empty.' : `${shown(written)} is no word of this column.`,
        expected: words.join(', '),
        action: 'Write one of these words.',
      });
    return word;
  };

  const product = text('product');
  if (product !== '' && !Key.safeParse(product).success)
    note('product', 'meta.unknown', {
      sentence: `${shown(product)} is no key of a product.`,
      expected: 'the key by which the lab knows the product, such as dunlin-42',
    });
  const unit = unitIn(cell('unit'), (code, said) => note('unit', code, said));
  const reference = cell('reference') === '' ? undefined : oneOf('reference', ['gauge', 'absolute'] as const);
  if (reference !== undefined && unit !== undefined && !sameDimension(unit, 'kPa'))
    note('reference', 'unit.wrong-dimension', {
      sentence: 'only a pressure is gauge or absolute.',
      action: 'Leave this cell empty, or correct the unit.',
    });
  const validity = oneOf('validity', ToldValidity.options);
  const value = valueIn(oneOf('outcome', Object.keys(OUTCOMES) as (keyof typeof OUTCOMES)[]), cell, note);
  const date = text('date');
  if (date !== '' && date !== UNKNOWN && !isDay(date))
    note('date', 'meta.date', {
      sentence: `${shown(date)} is no day of the calendar.`,
      expected: 'a day such as 2024-05-17, or unknown',
      action: 'Write year, month and day in this order.',
    });
  const rig = text('rig');
  const remark = text('remark', '', LONGEST.remark);
  const told = {
    lot: text('lot'),
    specimen: text('specimen'),
    test: text('test'),
    characteristic: text('characteristic'),
    source: text('source'),
  };
  if (problems.count > before || !unit || !validity || !value) return undefined;
  return OldResult.parse({
    line,
    product,
    ...told,
    unit,
    ...(reference === undefined ? {} : { reference }),
    ...value,
    ...(date === UNKNOWN ? {} : { date }),
    ...(rig === UNKNOWN ? {} : { rig }),
    validity,
    ...(remark === '' ? {} : { remark }),
  });
}

/** A UCUM code as it stands. A name that is doubtful in a run file is as doubtful here. */
function unitIn(written: string, note: (code: ProblemCode, said: Said) => void): string | undefined {
  const kinds = Object.keys(QUANTITY_KINDS) as QuantityKind[];
  const fits = kinds.find((kind) => 'unit' in readUnitName(written, kind));
  if (fits !== undefined) return written;
  const doubts = kinds
    .map((kind) => readUnitName(written, kind))
    .flatMap((one) => ('problem' in one ? [one.problem] : []));
  const doubt = doubts.find(({ code }) => code === 'unit.ambiguous');
  const code =
    written === ''
      ? 'unit.missing'
      : doubt
        ? 'unit.ambiguous'
        : unitByCode(written)
          ? 'unit.wrong-dimension'
          : 'unit.unknown';
  note(code, {
    sentence:
      code === 'unit.missing'
        ? 'this row has no unit.'
        : code === 'unit.ambiguous'
          ? `${shown(written)} can be read in more than one way.`
          : code === 'unit.wrong-dimension'
            ? `${shown(written)} is a unit of nothing that this lab measures.`
            : `${shown(written)} is no UCUM code.`,
    expected: doubt?.expected ?? 'a UCUM code, such as kPa, bar, [psi], J, Cel, mm; 1 for a plain number',
    action: 'Write the unit by its code; none is assumed.',
  });
  return undefined;
}

/** The value with the cells it was read from. Cells that the outcome does not use must be empty. */
function valueIn(
  outcome: keyof typeof OUTCOMES | undefined,
  cell: (name: OldColumn) => string,
  note: (name: OldColumn, code: ProblemCode, said: Said) => void,
): { value: CharacteristicValue; written: string[] } | undefined {
  if (outcome === undefined) return undefined;
  const number = (name: OldColumn): number | undefined => {
    if (cell(name) === '') {
      note(name, 'number.missing', {
        sentence: `${outcome} needs a number here, and this cell is empty.`,
        action: 'Fill it in; an empty cell is never 0.',
      });
      return undefined;
    }
    const read = readNumber(cell(name));
    if ('value' in read) return read.value;
    // What a layout could declare of a run file, a table has not.
    note(name, read.code, { ...read.said, action: 'Write a plain number with a point as decimal sign.' });
    return undefined;
  };
  const used: readonly OldColumn[] = outcome === 'between' ? ['lower', 'upper'] : ['value'];
  for (const name of ['value', 'lower', 'upper'] as const)
    if (!used.includes(name) && cell(name) !== '')
      note(name, 'number.syntax', {
        sentence: `${outcome} has ${outcome === 'between' ? 'a lower and an upper end' : 'one value'}, and this cell is filled in.`,
        action: 'Empty this cell, or correct the outcome.',
      });
  const written = used.map(cell);
  if (outcome !== 'between') {
    const value = number('value');
    return value === undefined ? undefined : { value: { kind: OUTCOMES[outcome], value }, written };
  }
  const [lower, upper] = [number('lower'), number('upper')];
  if (lower === undefined || upper === undefined) return undefined;
  if (lower < upper) return { value: { kind: 'between', lower, upper }, written };
  note('upper', 'number.out-of-range', {
    sentence: `the upper end must lie above the lower one, ${shown(cell('lower'))}.`,
    action: 'Look whether the two were exchanged.',
  });
  return undefined;
}

function isDay(written: string): boolean {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(written);
  return parts !== null && utcOf([Number(parts[1]), Number(parts[2]), Number(parts[3]), 0, 0, 0]) !== undefined;
}
