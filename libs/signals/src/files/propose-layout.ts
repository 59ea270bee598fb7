import { unitByCode } from '@breakbook/units';
import { cellsOf } from './cells.js';
import { datedBy } from './date-form.js';
import { somethingElse } from './first-bytes.js';
import { findText } from './found-text.js';
import { ProblemList } from './problem-list.js';
import { looksLikeFigures, type TableShape, tableShape } from './table-shape.js';
import type { Pieces } from './unpacked-pieces.js';

/** One column of a file nobody has described yet. */
export interface FoundColumn {
  column: number;
  name: string;
  /** As it stands in the file; nothing where the file says none. */
  unit: string | undefined;
  first: string[];
  /** What stands in it beside figures, each once. */
  words: string[];
}

/** What a file's bytes say of how it is written, and what only a person can say. */
export interface LayoutProposal {
  /** A layout to fill in: an empty text stands where the file does not say it. */
  layout: Record<string, unknown>;
  understood: { what: string; found: string }[];
  columns: FoundColumn[];
  /** What can be read in two ways, and was not decided. */
  doubts: string[];
  /** What no file says and the layout needs. */
  toFill: string[];
}

const BRACKETS = { square: /^([^[]*)\[(.*)\]\s*$/, round: /^([^(]*)\((.*)\)\s*$/ } as const;
const SIGN = { comma: ',', semicolon: ';', tab: '\t' } as const;
const MOST_WORDS = 10;

/**
 * How might this file be read? Told from its first megabyte: encoding, delimiter, number marks, header, units as written
 * and the columns. No unit, zone, rate or channel is guessed: what the file does not say is left empty, what it says in
 * two ways is a doubt. Throws a `Refusal` where the file is no text with a table of numbers.
 */
export async function proposeLayout(name: string, pieces: Pieces): Promise<LayoutProposal> {
  const problems = new ProblemList(name);
  const text = await findText(pieces, problems);
  const other = somethingElse(text.start, text.encoding);
  if (other) problems.refuse(other.code, {}, other.said);
  const shape = tableShape(text.lines);
  if (!shape)
    return problems.refuse(
      'header.missing',
      {},
      {
        sentence: 'no table of numbers was found at the end of this text.',
        expected: 'rows with the same number of cells, parted by commas, semicolons or tabs',
        action: 'Look at the file in an editor; export it as CSV.',
      },
    );

  const doubts = [...text.doubts];
  const head = headOf(text.lines.slice(0, shape.start), shape);
  const marks = numberMarks(shape, doubts);
  const columns = columnsOf(head, shape);
  const { time, found: timeFound, at, clock, toFill } = timeOf(columns, shape, doubts);
  const others = columns.filter((_, index) => index !== at && index !== clock);
  for (const { column, name: written, words } of others)
    if (words.length > 0)
      doubts.push(
        `Column ${column} (${written}) has ${words.map((word) => `"${word}"`).join(', ')} beside numbers: strike out of "noReading" what does not mean that there was no reading.`,
      );
  const unknown = [
    ...new Set(columns.map(({ unit }) => unit).filter((unit) => unit && unitByCode(unit) === undefined)),
  ];
  for (const unit of unknown)
    doubts.push(`The unit "${unit}" is no UCUM code: say in "unitNames" what it means on this rig.`);
  if (head.kind !== 'none')
    for (const { column, name: written, unit } of others)
      if (!unit)
        doubts.push(
          `Column ${column} (${written}) has no unit in the file, and no layout can give it one: export it with its unit.`,
        );

  const textPart = {
    ...(text.encoding === 'utf-8' ? {} : { encoding: text.encoding }),
    ...(shape.delimiter === 'comma' ? {} : { delimiter: shape.delimiter }),
    ...(marks.decimal === 'comma' ? { decimalMark: 'comma' } : {}),
    ...(marks.thousands ? { thousandsMark: marks.thousands } : {}),
    ...(text.loneCr ? { lineEnds: 'CR' } : {}),
    ...(head.preamble > 0 ? { preambleLines: head.preamble } : {}),
    ...(text.unpackedBytes === undefined ? {} : { gzipUpTo: 4 * text.unpackedBytes }),
  };
  return {
    layout: {
      layout: '',
      revision: 1,
      rig: '',
      form: 'layout 1',
      ...(Object.keys(textPart).length > 0 ? { text: textPart } : {}),
      ...headerPart(head, columns),
      ...(unknown.length > 0 ? { unitNames: unknown.map((written) => ({ written, unit: '' })) } : {}),
      time,
      columns: others.map(({ name: column, words }) => ({
        column,
        channel: '',
        ...(words.length > 0 ? { noReading: words } : {}),
      })),
      requiredMetadata: [],
      ...(head.comments > 0 ? {} : { metadata: 'none' }),
    },
    understood: [
      { what: 'encoding', found: text.encodingFound },
      { what: 'line ends', found: text.loneCr ? 'CR alone' : text.lineEnds },
      { what: 'delimiter', found: shape.delimiter },
      { what: 'decimal mark', found: marks.decimal },
      ...(marks.thousands ? [{ what: 'thousands mark', found: marks.thousands }] : []),
      { what: 'lines passed over', found: String(head.preamble) },
      { what: 'metadata lines', found: String(head.comments) },
      { what: 'header', found: head.words },
      { what: 'time', found: timeFound },
      { what: 'first row of data', found: `line ${shape.start + 1}` },
    ],
    columns,
    doubts,
    toFill: [
      'layout and rig: the keys of the layout and of its rig',
      'channel of each column, by the method; strike out columns that no method needs',
      ...toFill,
    ],
  };
}

interface FoundHead {
  kind: 'square' | 'round' | 'unit row' | 'none';
  names: string[];
  units: (string | undefined)[];
  preamble: number;
  comments: number;
  words: string;
}

/** Names and units above the data: one line with units in brackets, two lines, one line of names, or nothing. */
function headOf(above: readonly string[], shape: TableShape): FoundHead {
  const texts = above.map((line) => {
    const split = cellsOf(line, SIGN[shape.delimiter]);
    return 'code' in split || split.cells.length !== shape.width || line.startsWith('#') ? undefined : split.cells;
  });
  const last = texts.at(-1);
  const upper = texts.at(-2);
  const counted = (lines: readonly string[]) => {
    const preamble = lines.findLastIndex((line) => !line.startsWith('#')) + 1;
    return { preamble, comments: lines.length - preamble };
  };
  const none = Array<undefined>(shape.width).fill(undefined);
  if (!last || last.some(looksLikeFigures))
    return {
      kind: 'none',
      names: none.map((_, index) => `column ${index + 1}`),
      units: none,
      ...counted(above),
      words: 'none: names and units are for the layout to give',
    };
  for (const kind of ['square', 'round'] as const) {
    const parts = last.map((cell) => BRACKETS[kind].exec(cell));
    if (parts.some((one) => one !== null))
      return {
        kind,
        names: last.map((cell, index) => (parts[index]?.[1] ?? cell).trim()),
        units: parts.map((one) => one?.[2]?.trim()),
        ...counted(above.slice(0, -1)),
        words: `line ${above.length}, units in ${kind} brackets`,
      };
  }
  if (upper && !upper.some(looksLikeFigures))
    return {
      kind: 'unit row',
      names: upper.map((cell) => cell.trim()),
      units: last.map((cell) => cell.trim() || undefined),
      ...counted(above.slice(0, -2)),
      words: `names in line ${above.length - 1}, units in line ${above.length}`,
    };
  return {
    kind: 'square',
    names: last.map((cell) => cell.trim()),
    units: none,
    ...counted(above.slice(0, -1)),
    words: `line ${above.length}, without units`,
  };
}

function headerPart(head: FoundHead, columns: readonly FoundColumn[]): Record<string, unknown> {
  switch (head.kind) {
    case 'square':
      return {};
    case 'round':
      return { header: { kind: 'name and unit', brackets: 'round' } };
    case 'unit row':
      return { header: { kind: 'units in the next row' } };
    case 'none':
      return { header: { kind: 'none', columns: columns.map(({ name }) => ({ column: name, unit: '' })) } };
  }
}

function columnsOf({ names, units }: FoundHead, { rows, width }: TableShape): FoundColumn[] {
  return Array.from({ length: width }, (_, index) => {
    const cells = rows.map((row) => (row[index] as string).trim());
    return {
      column: index + 1,
      name: names[index] ?? '',
      unit: units[index],
      first: cells.slice(0, 3),
      words: [...new Set(cells.filter((cell) => !looksLikeFigures(cell)))].slice(0, MOST_WORDS),
    };
  });
}

/** Decimal and thousands mark, by the cells that hold one; a doubt where all could be either. */
function numberMarks({ rows, delimiter }: TableShape, doubts: string[]) {
  const cells = rows
    .flat()
    .map((cell) => cell.trim())
    .filter((cell) => /^[+-]?[\d.,'’ \u00a0\u2009\u202f]+(e[+-]?\d+)?$/i.test(cell));
  const some = (pattern: RegExp) => cells.some((cell) => pattern.test(cell));
  const thousands = some(/\d[’']\d{3}/) ? 'apostrophe' : some(/\d[ \u00a0\u2009\u202f]\d{3}/) ? 'space' : undefined;
  if (some(/\d\.\d{3}.*,\d/) || some(/\.\d{3}\.\d{3}/))
    return { decimal: 'comma' as const, thousands: 'point' as const };
  if (some(/\d,\d{3}.*\.\d/) || some(/,\d{3},\d{3}/)) return { decimal: 'point' as const, thousands: 'comma' as const };
  const [commas, points] = [cells.filter((cell) => cell.includes(',')), cells.filter((cell) => cell.includes('.'))];
  const decimal =
    delimiter !== 'comma' && commas.length > 0 && points.length === 0 ? ('comma' as const) : ('point' as const);
  const marked = decimal === 'comma' ? commas : points;
  if (
    marked.length > 0 &&
    marked.every((cell) => /^[+-]?\d{1,3}[.,]\d{3}$/.test(cell)) &&
    marked.some((cell) => !/^[+-]?0/.test(cell))
  )
    doubts.push(
      `Every ${decimal} stands before three digits, as a thousands mark would: "${marked.find((cell) => !/^[+-]?0/.test(cell))}" was taken as a decimal.`,
    );
  if (commas.length > 0 && points.length > 0)
    doubts.push(
      `Some numbers have a comma ("${commas[0]}") and others a point ("${points[0]}"): find out which is the decimal mark.`,
    );
  return { decimal, thousands };
}

/** Which column is the time, and of what kind. The first column where no name tells; nothing is said of zone or rate. */
function timeOf(columns: readonly FoundColumn[], shape: TableShape, doubts: string[]) {
  const named = columns.findIndex(({ name }) => /^(time|date|zeit|datum|timestamp|elapsed|clock|t)\b/i.test(name));
  const at = Math.max(0, named);
  const { name, unit } = columns[at] as FoundColumn;
  const cells = shape.rows.map((row) => (row[at] as string).trim());
  const done = (kind: Record<string, unknown>, found: string, toFill: string[] = []) => ({
    at,
    clock: -1,
    time: { column: name, ...kind },
    found: `column ${at + 1} (${name}): ${found}`,
    toFill,
  });

  const dated = datedBy(shape, at);
  if (dated) {
    const { date, clock, form, first } = dated;
    if (dated.eitherOrder)
      doubts.push(`Day and month could be either way round in "${first}": form ${form} was taken.`);
    const [dateColumn, clockColumn] = [columns[date], columns[clock]];
    return {
      at: date,
      clock,
      time: {
        column: dateColumn?.name,
        ...(clockColumn ? { clockColumn: clockColumn.name } : {}),
        kind: 'date-time',
        form,
        zone: '',
      },
      found: `column ${date + 1} (${dateColumn?.name})${clockColumn ? ` and column ${clock + 1} (${clockColumn.name})` : ''}: date-time, ${form}`,
      toFill: ['time.zone: the zone of the rig’s clock, as an offset from UTC or a name such as Europe/Lisbon'],
    };
  }
  if (named < 0) doubts.push(`No column is named as a time; the first one (${name}) was taken for it.`);
  const numbers = cells.map((cell) => Number(cell.replace(',', '.')));
  const first = numbers[0] ?? Number.NaN;
  if (!unit && Number.isInteger(first) && numbers.every((one, index) => one === first + index))
    return done({ kind: 'sample number', rate: { value: '', unit: 'Hz' } }, 'counts by ones', [
      'time.rate: samples a second, if these are sample numbers',
    ]);
  if (!unit && first >= 1e8) {
    doubts.push(`The times begin with ${cells[0]}: an epoch whose unit the file does not say.`);
    return done({ kind: 'epoch', unit: '' }, 'large numbers, as an epoch', ['time.unit: s, ms, us or ns']);
  }
  if (numbers.some((one, index) => index > 0 && one === numbers[index - 1]))
    doubts.push('Some rows have the stamp of the row before: if they were taken evenly, say "repeatedStamps".');
  return done({ kind: 'time' }, unit ? `in ${unit}` : 'a number');
}
