import { canonicalJson } from './canonical-json.js';

/** One place in which two JSON values are not the same. */
export interface Difference {
  /** RFC 6901, in the value that has this place. */
  pointer: string;
  /** The same for a person: parts of a list by their names where they have one. */
  place: string;
  /** As canonical JSON, cut where it is long; left out where that side has nothing there. */
  kept?: string;
  now?: string;
}

/** Members by which a part of a list is known to people. */
const NAMES = ['run', 'characteristic', 'check', 'criterion', 'limit', 'line', 'name', 'channel', 'question'];
const LONGEST = 200;

/**
 * Where does a value that was kept differ from the one worked out now? Compared to the last bit of every number, member
 * by member (missing ones too), lists part by part; the places in the order of canonical JSON. Empty where both have the
 * same canonical JSON.
 */
export function differencesBetween(kept: unknown, now: unknown): Difference[] {
  const found: Difference[] = [];
  compare({ pointer: '', place: [] }, kept, now, found);
  return found;
}

/** Differences by whether the kept value has something there. */
export interface AddedAndChanged {
  /** What is there now and was not kept, by its name, and in how many places. */
  added: { name: string; places: number }[];
  /** What was kept and is otherwise now, or is there no more. */
  changed: Difference[];
}

/** Is something otherwise than it was kept, or does what is worked out now only say more? */
export function addedAndChanged(differences: readonly Difference[]): AddedAndChanged {
  const places = new Map<string, number>();
  for (const { kept, pointer } of differences)
    if (kept === undefined) places.set(memberAt(pointer), (places.get(memberAt(pointer)) ?? 0) + 1);
  return {
    added: [...places].map(([name, count]) => ({ name, places: count })),
    changed: differences.filter(({ kept }) => kept !== undefined),
  };
}

/** The member that a place is, or of which list it is a part. */
function memberAt(pointer: string): string {
  const member = pointer.split('/').findLast((part) => !/^\d+$/.test(part)) ?? '';
  return member.replaceAll('~1', '/').replaceAll('~0', '~');
}

interface Place {
  pointer: string;
  place: string[];
}

function compare(at: Place, kept: unknown, now: unknown, found: Difference[]): void {
  if (Array.isArray(kept) && Array.isArray(now)) {
    for (let i = 0; i < Math.max(kept.length, now.length); i++)
      compare(within(at, `${i}`, nameOf(kept[i] ?? now[i]) ?? `${i + 1}`), kept[i], now[i], found);
    return;
  }
  if (isObject(kept) && isObject(now)) {
    for (const member of [...new Set([...Object.keys(kept), ...Object.keys(now)])].sort())
      compare(within(at, member, member), kept[member], now[member], found);
    return;
  }
  const [before, after] = [textOf(kept), textOf(now)];
  if (before === after) return;
  found.push({
    pointer: at.pointer,
    place: at.place.join(' / '),
    ...(before === undefined ? {} : { kept: cut(before) }),
    ...(after === undefined ? {} : { now: cut(after) }),
  });
}

function within({ pointer, place }: Place, member: string, name: string): Place {
  return { pointer: `${pointer}/${member.replaceAll('~', '~0').replaceAll('/', '~1')}`, place: [...place, name] };
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function nameOf(part: unknown): string | undefined {
  if (!isObject(part)) return undefined;
  const name = NAMES.map((one) => part[one]).find((one) => typeof one === 'string');
  return name as string | undefined;
}

function textOf(value: unknown): string | undefined {
  return value === undefined ? undefined : canonicalJson(value);
}

function cut(text: string): string {
  return text.length <= LONGEST ? text : `${text.slice(0, LONGEST)}…`;
}
