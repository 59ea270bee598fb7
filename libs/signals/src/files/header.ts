import { type Layout, type MethodChannel, shown } from '@breakbook/lab';
import { type QuantityKind, readUnitName, type UnitProblem, unitByCode } from '@breakbook/units';
import { type Dialect, dialectOf, type WrittenBy } from './dialect.js';
import { folded, nearestName } from './nearest-name.js';
import { readNumber } from './number.js';
import type { ProblemList } from './problem-list.js';

/** One column of a file, with what it carries. */
export interface Column {
  /** Field of the line, from 1. */
  column: number;
  name: string;
  /** UCUM code; the values stand in it as written. */
  unit: string;
  /** Time, the time of day where the date stands apart, a channel of the method, or something kept in the file alone. */
  carries: { time: true } | { clock: true } | { channel: MethodChannel } | { nothing: true };
}

/** What a layout and a method expect in a header. */
export interface HeaderExpectation {
  timeColumn: string;
  columns: readonly { column: string; channel: string }[];
  channels: readonly MethodChannel[];
  dialect: Dialect;
}

/** What the header says of one column, and how it is written there. */
export interface HeaderCell {
  name: string;
  unit?: string;
  written: string;
}

/** What files of this layout are held against, for a method with these channels. */
export function expectationOf(layout: WrittenBy, channels: readonly MethodChannel[]): HeaderExpectation {
  return { timeColumn: layout.time.column, columns: layout.columns, channels, dialect: dialectOf(layout) };
}

const LONGEST_NAME = 100;

/** `name [unit]`: the unit is what stands between the first opening bracket and the last closing one. */
export function nameAndUnit(cell: string, { header }: Pick<Dialect, 'header'>): HeaderCell {
  const name = (text: string) => text.trim().normalize('NFC');
  if (header.kind !== 'name and unit') return { name: name(cell), written: cell };
  const found = (header.brackets === 'round' ? /^([^(]*)\((.*)\)\s*$/s : /^([^[]*)\[(.*)\]\s*$/s).exec(cell);
  if (!found) return { name: name(cell), written: cell };
  return { name: name(found[1] ?? ''), unit: (found[2] ?? '').trim(), written: cell };
}

/** Units in a row of their own: with or without brackets round each. */
export function unitInOwnCell(cell: string): string {
  const bare = cell.trim();
  // A code that has brackets of its own is no unit without them.
  const found = /^\[(.*)\]$/s.exec(unitByCode(bare) === undefined ? bare : '') ?? /^\((.*)\)$/s.exec(bare);
  return found ? (found[1] ?? '').trim() : bare;
}

/** Could this line be the header? It names a column that is known, or gives a unit in brackets. */
export function looksLikeHeader(cells: readonly string[], expectation: HeaderExpectation): boolean {
  const known = new Set(knownNames(expectation).map(folded));
  return cells.some((cell) => {
    const { name, unit } = nameAndUnit(cell, expectation.dialect);
    return unit !== undefined || known.has(folded(name));
  });
}

/** The columns of a header line; everything that is wrong with it goes to `problems`. */
export function readHeader(
  cells: readonly HeaderCell[],
  line: number,
  expectation: HeaderExpectation,
  problems: ProblemList,
  flags: ProblemList,
): Column[] {
  const columns: Column[] = [];
  const seen = new Map<string, number>();

  for (const [index, { name, unit: written, written: cell }] of cells.entries()) {
    const place = { line, column: index + 1, ...(name === '' ? {} : { channel: name.slice(0, LONGEST_NAME) }) };

    const fault = nameFault(name);
    if (fault) {
      problems.add('header.name-invalid', place, () => ({
        sentence: fault,
        found: cell,
        expected: 'name [unit]',
        action: 'Give the column a name.',
      }));
      continue;
    }

    const carries = carriedBy(name, expectation);
    const identity = 'channel' in carries ? `channel ${carries.channel.channel}` : `name ${folded(name)}`;
    const before = seen.get(identity) ?? seen.get(`name ${folded(name)}`);
    if (before !== undefined) {
      problems.add('header.duplicate-channel', place, () => ({
        sentence: `column ${before} carries the same channel already, and neither is preferred.`,
        found: cell,
        action: 'Leave one of the two columns, or give them different names and name both in the layout.',
      }));
      continue;
    }
    seen.set(identity, index + 1).set(`name ${folded(name)}`, index + 1);

    if ('nothing' in carries && !knownNames(expectation).includes(name)) {
      const near = nearestName(name, knownNames(expectation));
      flags.add('header.unknown-channel', place, () => ({
        sentence: `neither the method nor the layout knows this column; it is kept in the file and not judged.`,
        found: cell,
        expected: knownNames(expectation).join(', '),
        action: near
          ? `If "${near}" is meant, name the column so. Otherwise have the layout name it.`
          : 'Have the layout name it, if it belongs to the run.',
      }));
    }

    const unit = unitOf(written, carries, expectation.dialect);
    if ('problem' in unit)
      problems.add(unit.problem.code, place, () => ({
        sentence: unitSentence(unit.problem.code, name, written),
        found: cell,
        expected: unit.problem.expected,
        action: unit.problem.action,
      }));
    // A column with a doubtful unit still counts as there, so that it is not called missing as well.
    columns.push({ column: index + 1, name, unit: 'problem' in unit ? '1' : unit.unit, carries });
  }

  requireColumns(columns, line, expectation, problems);
  return columns;
}

function knownNames({ timeColumn, columns, channels, dialect }: HeaderExpectation): string[] {
  return [
    timeColumn,
    ...clockColumnOf(dialect),
    ...columns.map(({ column }) => column),
    ...channels.map(({ channel }) => channel),
  ];
}

/** The column of the time of day, where the layout has one: none, or one. */
function clockColumnOf({ time }: Dialect): string[] {
  return time.kind === 'date-time' && time.clockColumn !== undefined ? [time.clockColumn] : [];
}

function carriedBy(name: string, { timeColumn, columns, channels, dialect }: HeaderExpectation): Column['carries'] {
  if (name === timeColumn.normalize('NFC')) return { time: true };
  if (clockColumnOf(dialect).some((clock) => clock.normalize('NFC') === name)) return { clock: true };
  const wanted = columns.find(({ column }) => column.normalize('NFC') === name)?.channel ?? name;
  const channel = channels.find((one) => one.channel === wanted);
  return channel ? { channel } : { nothing: true };
}

function nameFault(name: string): string | undefined {
  if (name === '') return 'this column has no name.';
  if (name.length > LONGEST_NAME) return `the name of this column is longer than ${LONGEST_NAME} characters.`;
  if (shown(name) !== name) return 'a hidden or control character stands in the name of this column.';
  if ('value' in readNumber(name)) return 'the name of this column is a number.';
  return undefined;
}

/**
 * The unit of a column. UCUM codes that carry brackets of their own (`[psi]`) may be written with one pair or with two:
 * what stands inside is tried first, and only where that is no unit of the kind is the pair counted to the code.
 */
function unitOf(
  written: string | undefined,
  carries: Column['carries'],
  { unitNames, time }: Dialect,
): { unit: string } | { problem: UnitFault } {
  if ('clock' in carries || 'time' in carries) {
    if (time.kind !== 'time') return unitOfStamps(written, time);
  }
  const mapped = unitNames.find((one) => one.written === written);
  if (mapped) return asMapped(mapped, carries);
  const kind: QuantityKind | undefined =
    'time' in carries ? 'time' : 'channel' in carries ? carries.channel.kind : undefined;
  const bracketed = `[${written}]`;

  if (kind) {
    const inside = readUnitName(written, kind);
    if ('unit' in inside || !written) return inside;
    const whole = readUnitName(bracketed, kind);
    return 'unit' in whole ? whole : inside;
  }
  if (!written)
    return {
      problem: {
        code: 'unit.missing' as const,
        expected: 'a UCUM code in brackets after the name',
        action: 'Write the unit in brackets after the name; for a number without one, "[1]".',
      },
    };
  const code = [written, bracketed].find((one) => unitByCode(one) !== undefined);
  if (code) return { unit: code };
  return {
    problem: { code: 'unit.unknown' as const, expected: 'a UCUM code', action: 'Write a UCUM code, such as kPa.' },
  };
}

type UnitFault = Omit<UnitProblem, 'found'>;

/** A time that is no plain time has its unit from the layout; one that the header gives must not contradict it. */
function unitOfStamps(
  written: string | undefined,
  time: Exclude<Layout['time'], { kind: 'time' }>,
): { unit: string } | { problem: UnitFault } {
  const unit = time.kind === 'epoch' ? time.unit : time.kind === 'date-time' ? 's' : '1';
  const agrees = !written || (written === unit && time.kind !== 'date-time');
  if (agrees) return { unit };
  return {
    problem: {
      code: 'unit.wrong-dimension',
      expected: time.kind === 'date-time' ? 'no unit' : `no unit, or "${unit}"`,
      action: `The layout says that this column holds ${time.kind === 'epoch' ? `an epoch in ${unit}` : `a ${time.kind}`}; have a layout that fits the header read the unread file.`,
    },
  };
}

/** A unit name that the layout gives a meaning: it must be one that this column can have. */
function asMapped(
  { written, unit, reference }: NonNullable<Layout['unitNames']>[number],
  carries: Column['carries'],
): { unit: string } | { problem: UnitFault } {
  const wrong = (expected: string, action: string) => ({
    problem: { code: 'unit.wrong-dimension' as const, expected, action },
  });
  if (unitByCode(unit) === undefined)
    return {
      problem: { code: 'unit.unknown', expected: 'a UCUM code', action: `Correct the layout: "${unit}" is no unit.` },
    };
  if ('nothing' in carries) return { unit };
  const kind = 'channel' in carries ? carries.channel.kind : 'time';
  const read = readUnitName(unit, kind);
  if ('problem' in read) return read;
  const measured = 'channel' in carries ? carries.channel.reference : undefined;
  if (reference && measured && reference !== measured)
    return wrong(
      `${measured} pressure`,
      `The layout says that "${written}" is ${reference} pressure, and the method records ${measured} pressure here. Correct whichever is wrong.`,
    );
  return { unit };
}

function unitSentence(code: string, name: string, written: string | undefined): string {
  const unit = `"${shown(written ?? '')}"`;
  switch (code) {
    case 'unit.missing':
      return `"${shown(name)}" has no unit, and none is assumed. Write one after the name: ${shown(name)} [kPa].`;
    case 'unit.ambiguous':
      return `the unit ${unit} can be read in more than one way, and neither is chosen.`;
    case 'unit.wrong-dimension':
      return `the unit ${unit} does not fit what this column measures.`;
    default:
      return `the unit ${unit} is not known.`;
  }
}

function requireColumns(
  columns: readonly Column[],
  line: number,
  { timeColumn, columns: named, channels, dialect }: HeaderExpectation,
  problems: ProblemList,
): void {
  const names = columns.map(({ name }) => name);
  if (!columns.some(({ carries }) => 'time' in carries))
    problems.add('header.missing-channel', { line, channel: timeColumn }, () => ({
      sentence: `no column is named "${timeColumn}", which the layout reads the time from.`,
      found: names.join(', '),
      action: nearHint(timeColumn, names),
    }));
  for (const clock of clockColumnOf(dialect))
    if (!columns.some(({ carries }) => 'clock' in carries))
      problems.add('header.missing-channel', { line, channel: clock }, () => ({
        sentence: `no column is named "${clock}", which the layout reads the time of day from.`,
        found: names.join(', '),
        action: nearHint(clock, names),
      }));
  for (const wanted of channels) {
    if (!wanted.required) continue;
    if (columns.some(({ carries }) => 'channel' in carries && carries.channel === wanted)) continue;
    const name = named.find(({ channel }) => channel === wanted.channel)?.column ?? wanted.channel;
    problems.add('header.missing-channel', { line, channel: wanted.channel }, () => ({
      sentence: `the method needs channel ${wanted.channel}, which this layout reads from a column "${name}"; there is none.`,
      found: names.join(', '),
      action: nearHint(name, names),
    }));
  }
}

function nearHint(name: string, names: readonly string[]): string {
  const near = nearestName(name, names);
  return near
    ? `If "${shown(near)}" is that column, name it "${name}", or have a layout that names it read the unread file.`
    : `Record that channel, or have a layout that names its column read the unread file.`;
}
