import { z } from 'zod';
import { ChannelName } from './methods.js';
import { Quantity, UnitCode } from './quantity.js';
import { Key, Line, Revision } from './text.js';
import { isZone } from './zones.js';

const ZONES = 'a zone is Z, an offset from UTC such as +01:00, or a name such as Europe/Lisbon';

/** How the bytes and cells of a rig's files are written, where not as layout 1 has it; what is left out is as there. */
export const LayoutText = z
  .strictObject({
    encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'latin-1', 'windows-1252']).optional(),
    delimiter: z.enum(['comma', 'semicolon', 'tab']).optional(),
    decimalMark: z.enum(['point', 'comma']).optional(),
    thousandsMark: z.enum(['point', 'comma', 'apostrophe', 'space']).optional(),
    /** Lines end with a carriage return alone, throughout. */
    lineEnds: z.literal('CR').optional(),
    /** What a line of metadata or remark above the header begins with. */
    commentMark: z
      .string()
      .regex(/^[!#$%&*/;<>@~-]{1,3}$/, { error: 'a comment mark is one to three signs, such as # or //' })
      .optional(),
    /** Lines at the top of the file that are passed over, whatever they say. */
    preambleLines: z.number().int().min(0).max(1000).optional(),
    /** The file may come packed by gzip, and is then no longer than this unpacked. */
    gzipUpTo: z
      .number()
      .int()
      .min(1)
      .max(2 ** 31)
      .optional(),
  })
  .refine(({ delimiter = 'comma', decimalMark = 'point' }) => delimiter !== 'comma' || decimalMark !== 'comma', {
    error: 'one comma cannot part both cells and decimals; declare another delimiter',
    path: ['delimiter'],
  })
  .refine(({ thousandsMark, decimalMark = 'point' }) => thousandsMark !== decimalMark, {
    error: 'the decimal mark and the thousands mark must differ',
    path: ['thousandsMark'],
  })
  .refine(({ thousandsMark, delimiter = 'comma' }) => thousandsMark !== 'comma' || delimiter !== 'comma', {
    error: 'one comma cannot part both cells and thousands; declare another delimiter',
    path: ['thousandsMark'],
  });
export type LayoutText = z.infer<typeof LayoutText>;

/** Where names and units of the columns stand. */
export const LayoutHeader = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('name and unit'),
    /** What stands round the unit after the name: `name [kPa]` or `name (kPa)`. */
    brackets: z.enum(['square', 'round']),
  }),
  z.strictObject({ kind: z.literal('units in the next row') }),
  z.strictObject({
    kind: z.literal('none'),
    /** Every column of the file, in order; dates, times of day, epochs and sample numbers need no unit. */
    columns: z
      .array(z.strictObject({ column: Line, unit: UnitCode.optional() }))
      .min(1)
      .max(200),
  }),
]);
export type LayoutHeader = z.infer<typeof LayoutHeader>;

/**
 * The zone of a clock: its offset from UTC, or where it is set forward and back a zone of the IANA time-zone database. A
 * name without an area, such as CET, is none: it stands for more than one rule.
 */
export const ClockZone = z
  .string()
  .regex(/^(Z|[+-](0\d|1[0-4]):[0-5]\d|[A-Za-z_]+(\/[A-Za-z0-9_+-]+)+)$/, { error: ZONES, abort: true })
  .refine((zone) => /^[Z+-]/.test(zone) || isZone(zone), { error: ZONES });

const TIME = {
  column: Line,
  /** Rows of one stamp were taken evenly until the next stamp. Without it a repeated stamp is refused. */
  repeatedStamps: z.literal('spread evenly').optional(),
  /** Gaps are usual with this logger: no flag. What happened in one is unknown all the same. */
  gapsExpected: z.literal(true).optional(),
  /** A trigger starts the record before its zero of time: no flag. */
  beginsBeforeZero: z.literal(true).optional(),
};

export const LayoutTime = z.discriminatedUnion('kind', [
  /** A time in the unit of its header. */
  z.strictObject({ ...TIME, kind: z.literal('time') }),
  z.strictObject({ ...TIME, kind: z.literal('sample number'), rate: Quantity }),
  /** Counted from 1970-01-01T00:00:00Z. */
  z.strictObject({ ...TIME, kind: z.literal('epoch'), unit: z.enum(['s', 'ms', 'us', 'ns']) }),
  z.strictObject({
    ...TIME,
    kind: z.literal('date-time'),
    /** The column with the time of day, where date and time stand in two; `form` then has a blank between them. */
    clockColumn: Line.optional(),
    /** Of YYYY, MM, DD, hh, mm, ss and f (a fraction of a second, any number of digits); all else as it stands. */
    form: z
      .string()
      .max(60)
      .refine((form) => ['YYYY', 'MM', 'DD', 'hh', 'mm', 'ss'].every((field) => form.split(field).length === 2), {
        error: 'a form has each of YYYY, MM, DD, hh, mm and ss once, such as DD.MM.YYYY hh:mm:ss.f',
      }),
    zone: ClockZone,
  }),
]);
export type LayoutTime = z.infer<typeof LayoutTime>;

export const LayoutColumn = z.strictObject({
  column: Line,
  channel: ChannelName,
  /** Indicated value = scale · number in the file; below zero where the sensor is mounted the other way round. */
  scale: z
    .number()
    .refine((scale) => scale !== 0, { error: 'a scale is not 0' })
    .optional(),
  /** What the logger writes where it has no reading, such as `OL`; "" is an empty cell, as of a slower channel. */
  noReading: z.array(z.string().max(20)).min(1).max(10).optional(),
  /** Time between two readings of a channel that is sampled more slowly than the file has rows. */
  sampledEvery: Quantity.optional(),
});
export type LayoutColumn = z.infer<typeof LayoutColumn>;

/** How one rig's files are read: layout 1 of docs/formats.md with the columns of this rig, and what it does otherwise. */
export const Layout = z
  .strictObject({
    layout: Key,
    revision: Revision,
    rig: Key,
    form: z.literal('layout 1'),
    text: LayoutText.optional(),
    header: LayoutHeader.optional(),
    /** What a unit that is written otherwise than by its code, or in a doubtful way, means on this rig. */
    unitNames: z
      .array(z.strictObject({ written: Line, unit: UnitCode, reference: z.enum(['gauge', 'absolute']).optional() }))
      .max(50)
      .optional(),
    time: LayoutTime,
    /** Which column carries which channel; the unit stands in the file's header. */
    columns: z.array(LayoutColumn).min(1),
    /** Metadata lines that must be there, beside specimen, rig and started. */
    requiredMetadata: z.array(Line),
    /** The file carries none: specimen, rig and start are those of the run record; lines of remark are passed over. */
    metadata: z.literal('none').optional(),
    /** Zone of the rig's clock, for a `started` written without one. */
    clockZone: ClockZone.optional(),
  })
  .refine(({ metadata, requiredMetadata }) => metadata !== 'none' || requiredMetadata.length === 0, {
    error: 'a file that carries no metadata cannot be asked for any',
    path: ['requiredMetadata'],
  })
  .refine(({ time }) => time.kind !== 'date-time' || time.clockColumn !== time.column, {
    error: 'date and time stand in one column here; leave "clockColumn" out, or name the other one',
    path: ['time', 'clockColumn'],
  })
  .refine(({ header, time }) => header?.kind !== 'none' || withoutUnit(header.columns, time).length === 0, {
    error: 'a file without a header says no unit: every column but a stamp needs one here',
    path: ['header', 'columns'],
    params: { code: 'unit.missing' },
  });
export type Layout = z.infer<typeof Layout>;

function withoutUnit(
  columns: readonly { column: string; unit?: string | undefined }[],
  time: z.infer<typeof LayoutTime>,
): { column: string }[] {
  const stamps: (string | undefined)[] =
    time.kind === 'time' ? [] : [time.column, time.kind === 'date-time' ? time.clockColumn : undefined];
  return columns.filter(({ column, unit }) => unit === undefined && !stamps.includes(column));
}
