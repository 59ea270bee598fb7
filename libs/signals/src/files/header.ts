import { type MethodChannel, shown } from '@breakbook/lab';
import { type QuantityKind, readUnitName, unitByCode } from '@breakbook/units';
import { folded, nearestName } from './nearest-name.js';
import { readNumber } from './number.js';
import { type ProblemList } from './problem-list.js';

/** One column of a file, with what it carries. */
export interface Column {
  /** Field of the line, from 1. */
  column: number;
  name: string;
  /** UCUM code; the values stand in it as written. */
  unit: string;
  /** Time, a channel of the method, or something kept in the file alone. */
  carries: { time: true } | { channel: MethodChannel } | { nothing: true };
}

/** What a layout and a method expect in a header. */
export interface HeaderExpectation {
  timeColumn: string;
  columns: readonly { column: string; channel: string }[];
  channels: readonly MethodChannel[];
}

const LONGEST_NAME = 100;

/** `name [unit]`: the unit is what stands between the first opening bracket and the last closing one. */
export function nameAndUnit(cell: string): { name: string; unit?: string } {
  const found = /^([^[]*)\[(.*)\]\s*$/s.exec(cell);
  if (!found) return { name: cell.trim().normalize('NFC') };
  return { name: (found[1] ?? '').trim().normalize('NFC'), unit: (found[2] ?? '').trim() };
}

/** Could this line be the header? It names a column that is known, or gives a unit in brackets. */
export function looksLikeHeader(cells: readonly string[], expectation: HeaderExpectation): boolean {
  const known = new Set(knownNames(expectation).map(folded));
  return cells.some((cell) => {
    const { name, unit } = nameAndUnit(cell);
    return unit !== undefined || known.has(folded(name));
  });
}

/** The columns of a header line; everything that is wrong with it goes to `problems`. */
export function readHeader(
  cells: readonly string[],
  line: number,
  expectation: HeaderExpectation,
  problems: ProblemList,
  flags: ProblemList,
): Column[] {
  const columns: Column[] = [];
  const seen = new Map<string, number>();

  for (const [index, cell] of cells.entries()) {
    const { name, unit: written } = nameAndUnit(cell);
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

    const unit = unitOf(written, carries);
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

function knownNames({ timeColumn, columns, channels }: HeaderExpectation): string[] {
  return [timeColumn, ...columns.map(({ column }) => column), ...channels.map(({ channel }) => channel)];
}

function carriedBy(name: string, { timeColumn, columns, channels }: HeaderExpectation): Column['carries'] {
  if (name === timeColumn.normalize('NFC')) return { time: true };
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
function unitOf(written: string | undefined, carries: Column['carries']) {
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
  { timeColumn, columns: named, channels }: HeaderExpectation,
  problems: ProblemList,
): void {
  const names = columns.map(({ name }) => name);
  if (!columns.some(({ carries }) => 'time' in carries))
    problems.add('header.missing-channel', { line, channel: timeColumn }, () => ({
      sentence: `no column is named "${timeColumn}", which the layout reads the time from.`,
      found: names.join(', '),
      action: nearHint(timeColumn, names),
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
