import type { Layout, LayoutHeader, LayoutTime } from '@breakbook/lab';

/** How the text of a file is written, all of it settled: a layout's own, and layout 1 where it says nothing. */
export interface Dialect {
  encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin-1' | 'windows-1252';
  delimiter: { sign: string; byte: number; words: string };
  decimal: { sign: string; byte: number };
  /** Signs that may part thousands; none where empty. */
  thousands: string;
  loneCr: boolean;
  comment: string;
  preamble: number;
  gzipUpTo: number | undefined;
  header: LayoutHeader;
  unitNames: NonNullable<Layout['unitNames']>;
  time: LayoutTime;
  /** Tokens without a reading, by the name of the column. */
  noReading: ReadonlyMap<string, readonly string[]>;
  hasMetadata: boolean;
}

const DELIMITERS = {
  comma: { sign: ',', byte: 44, words: 'commas' },
  semicolon: { sign: ';', byte: 59, words: 'semicolons' },
  tab: { sign: '\t', byte: 9, words: 'tabs' },
} as const;
const DECIMALS = { point: { sign: '.', byte: 46 }, comma: { sign: ',', byte: 44 } } as const;
// A space may be written as any blank that does not break a line.
const THOUSANDS = { point: '.', comma: ',', apostrophe: "'’", space: ' \u00a0\u2009\u202f' } as const;

/** What of a layout says how its files are written. */
export type WrittenBy = Pick<Layout, 'text' | 'header' | 'unitNames' | 'time' | 'columns' | 'metadata'>;

export function dialectOf({ text = {}, header, unitNames = [], time, columns, metadata }: WrittenBy): Dialect {
  return {
    encoding: text.encoding ?? 'utf-8',
    delimiter: DELIMITERS[text.delimiter ?? 'comma'],
    decimal: DECIMALS[text.decimalMark ?? 'point'],
    thousands: text.thousandsMark ? THOUSANDS[text.thousandsMark] : '',
    loneCr: text.lineEnds === 'CR',
    comment: text.commentMark ?? '#',
    preamble: text.preambleLines ?? 0,
    gzipUpTo: text.gzipUpTo,
    header: header ?? { kind: 'name and unit', brackets: 'square' },
    unitNames,
    time,
    noReading: new Map(
      columns.flatMap(({ column, noReading }) => (noReading ? [[column.normalize('NFC'), noReading]] : [])),
    ),
    hasMetadata: metadata !== 'none',
  };
}
