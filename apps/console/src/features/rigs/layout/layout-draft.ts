import { Layout, type Problem, schemaProblems } from '@breakbook/lab';

/** A layout as it is typed: text stays text until it is tried, and what is left empty is as layout 1 has it. */
export interface LayoutDraft {
  layout: string;
  revision: number;
  rig: string;
  encoding: string;
  delimiter: string;
  decimalMark: string;
  thousandsMark: string;
  lineEnds: string;
  commentMark: string;
  preambleLines: string;
  /** Bytes that a packed file may have unpacked; empty where none may be packed. */
  gzipUpTo: string;
  header: 'square' | 'round' | 'units in the next row' | 'none';
  /** Names and units of a file without a header. */
  headerColumns: { column: string; unit: string }[];
  unitNames: { written: string; unit: string; reference: string }[];
  time: TimeDraft;
  columns: ColumnDraft[];
  /** Separated by commas. */
  requiredMetadata: string;
  carriesMetadata: boolean;
  clockZone: string;
}

export interface TimeDraft {
  kind: Layout['time']['kind'];
  column: string;
  clockColumn: string;
  rate: string;
  rateUnit: string;
  epochUnit: string;
  form: string;
  zone: string;
  repeatedStamps: boolean;
  gapsExpected: boolean;
  beginsBeforeZero: boolean;
}

export interface ColumnDraft {
  column: string;
  /** Empty: the column is not read into a channel. */
  channel: string;
  scale: string;
  /** What stands for no reading, separated by bars; an empty cell has its own box. */
  noReading: string;
  emptyIsNoReading: boolean;
  sampledEvery: string;
  sampledEveryUnit: string;
}

/** The text of a typed layout that is as layout 1 has it. */
const PLAIN = {
  encoding: 'utf-8',
  delimiter: 'comma',
  decimalMark: 'point',
  thousandsMark: '',
  lineEnds: '',
  commentMark: '',
} as const;

/**
 * A layout to be edited. A proposed one has the same members, with an empty text where the file does not say it. Columns
 * of the file that the layout does not name are added without a channel.
 */
export function draftOf(layout: Layout, inFile: readonly string[] = []): LayoutDraft {
  const { text = {}, header, time } = layout;
  const stamps = [time.column, ...(time.kind === 'date-time' ? [time.clockColumn] : [])];
  const named = layout.columns.map(({ column }) => column);
  const written = (value: unknown) => (value === undefined ? '' : String(value));
  return {
    layout: layout.layout,
    revision: layout.revision,
    rig: layout.rig,
    encoding: text.encoding ?? PLAIN.encoding,
    delimiter: text.delimiter ?? PLAIN.delimiter,
    decimalMark: text.decimalMark ?? PLAIN.decimalMark,
    thousandsMark: text.thousandsMark ?? '',
    lineEnds: text.lineEnds ?? '',
    commentMark: text.commentMark ?? '',
    preambleLines: written(text.preambleLines),
    gzipUpTo: written(text.gzipUpTo),
    header: header === undefined ? 'square' : header.kind === 'name and unit' ? header.brackets : header.kind,
    headerColumns: header?.kind === 'none' ? header.columns.map(({ column, unit = '' }) => ({ column, unit })) : [],
    unitNames: (layout.unitNames ?? []).map(({ reference = '', ...one }) => ({ ...one, reference })),
    time: {
      kind: time.kind,
      column: time.column,
      clockColumn: time.kind === 'date-time' ? (time.clockColumn ?? '') : '',
      rate: time.kind === 'sample number' ? written(time.rate.value) : '',
      rateUnit: time.kind === 'sample number' ? time.rate.unit : 'Hz',
      epochUnit: time.kind === 'epoch' ? time.unit : '',
      form: time.kind === 'date-time' ? time.form : '',
      zone: time.kind === 'date-time' ? time.zone : '',
      repeatedStamps: time.repeatedStamps !== undefined,
      gapsExpected: time.gapsExpected !== undefined,
      beginsBeforeZero: time.beginsBeforeZero !== undefined,
    },
    columns: [
      ...layout.columns.map(
        ({ column, channel, scale, noReading = [], sampledEvery }): ColumnDraft => ({
          column,
          channel,
          scale: written(scale),
          noReading: noReading.filter((token) => token !== '').join(' | '),
          emptyIsNoReading: noReading.includes(''),
          sampledEvery: written(sampledEvery?.value),
          sampledEveryUnit: sampledEvery?.unit ?? 's',
        }),
      ),
      ...inFile
        .filter((column) => !stamps.includes(column) && !named.includes(column))
        .map((column): ColumnDraft => ({ ...NO_CHANNEL, column })),
    ],
    requiredMetadata: layout.requiredMetadata.join(', '),
    carriesMetadata: layout.metadata === undefined,
    clockZone: layout.clockZone ?? '',
  };
}

const NO_CHANNEL: Omit<ColumnDraft, 'column'> = {
  channel: '',
  scale: '',
  noReading: '',
  emptyIsNoReading: false,
  sampledEvery: '',
  sampledEveryUnit: 's',
};

/** The layout that was typed, or what is wrong with it, each with its place. */
export function layoutOf(draft: LayoutDraft): { layout: Layout } | { problems: Problem[] } {
  const value = typed(draft);
  const read = Layout.safeParse(value);
  return read.success ? { layout: read.data } : { problems: schemaProblems(read.error, value) };
}

function typed(draft: LayoutDraft): unknown {
  const { time, header } = draft;
  const text = {
    ...unless(PLAIN.encoding, 'encoding', draft.encoding),
    ...unless(PLAIN.delimiter, 'delimiter', draft.delimiter),
    ...unless(PLAIN.decimalMark, 'decimalMark', draft.decimalMark),
    ...unless('', 'thousandsMark', draft.thousandsMark),
    ...unless('', 'lineEnds', draft.lineEnds),
    ...unless('', 'commentMark', draft.commentMark.trim()),
    ...unless('', 'preambleLines', numberOf(draft.preambleLines)),
    ...unless('', 'gzipUpTo', numberOf(draft.gzipUpTo)),
  };
  const metadata = draft.requiredMetadata
    .split(',')
    .map((one) => one.trim())
    .filter((one) => one !== '');
  return {
    layout: draft.layout.trim(),
    revision: draft.revision,
    rig: draft.rig,
    form: 'layout 1',
    ...(Object.keys(text).length > 0 ? { text } : {}),
    ...headerOf(header, draft.headerColumns),
    ...(draft.unitNames.length > 0
      ? {
          unitNames: draft.unitNames.map(({ written, unit, reference }) => ({
            written,
            unit: unit.trim(),
            ...unless('', 'reference', reference),
          })),
        }
      : {}),
    time: {
      column: time.column,
      kind: time.kind,
      ...(time.repeatedStamps ? { repeatedStamps: 'spread evenly' } : {}),
      ...(time.gapsExpected ? { gapsExpected: true } : {}),
      ...(time.beginsBeforeZero ? { beginsBeforeZero: true } : {}),
      ...timeKind(time),
    },
    columns: draft.columns.filter(({ channel }) => channel !== '').map(columnOf),
    requiredMetadata: draft.carriesMetadata ? metadata : [],
    ...(draft.carriesMetadata ? {} : { metadata: 'none' }),
    ...unless('', 'clockZone', draft.clockZone.trim()),
  };
}

function headerOf(header: LayoutDraft['header'], columns: LayoutDraft['headerColumns']): object {
  switch (header) {
    case 'square':
      return {};
    case 'round':
      return { header: { kind: 'name and unit', brackets: 'round' } };
    case 'units in the next row':
      return { header: { kind: header } };
    case 'none':
      return {
        header: {
          kind: header,
          columns: columns.map(({ column, unit }) => ({ column: column.trim(), ...unless('', 'unit', unit.trim()) })),
        },
      };
  }
}

function timeKind({ kind, rate, rateUnit, epochUnit, form, zone, clockColumn }: TimeDraft): object {
  switch (kind) {
    case 'time':
      return {};
    case 'sample number':
      return { rate: { value: numberOf(rate), unit: rateUnit.trim() } };
    case 'epoch':
      return { unit: epochUnit };
    case 'date-time':
      return { form: form.trim(), zone: zone.trim(), ...unless('', 'clockColumn', clockColumn) };
  }
}

function columnOf(one: ColumnDraft): object {
  const tokens = [
    ...(one.emptyIsNoReading ? [''] : []),
    ...one.noReading
      .split('|')
      .map((token) => token.trim())
      .filter((token) => token !== ''),
  ];
  return {
    column: one.column,
    channel: one.channel,
    ...unless('', 'scale', numberOf(one.scale)),
    ...(tokens.length > 0 ? { noReading: tokens } : {}),
    ...(one.sampledEvery.trim() === ''
      ? {}
      : { sampledEvery: { value: numberOf(one.sampledEvery), unit: one.sampledEveryUnit.trim() } }),
  };
}

/** A member that is left out where it says nothing of its own. */
function unless(plain: unknown, name: string, value: unknown): object {
  return value === plain ? {} : { [name]: value };
}

/** A number as typed; what is none stays as it is, to be told of. */
function numberOf(text: string): number | string {
  const trimmed = text.trim();
  return /^[+-]?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(trimmed) ? Number(trimmed) : trimmed;
}
