import { PLAIN, type Printing } from './printing.js';

/** `2026-03-14`, the day on which an instant falls where the lab is. */
export function dayOf(instant: string, zone: string): string {
  const { year, month, day } = partsOf(instant, zone);
  return `${year}-${month}-${day}`;
}

/** `2026-03-14 10:32`, the time where the lab is. */
export function timeOf(instant: string, zone: string): string {
  const { hour, minute } = partsOf(instant, zone);
  return `${dayOf(instant, zone)} ${hour}:${minute}`;
}

/** `2026-03-14`, or `2026-03-14 to 2026-03-17`. */
export function daysOf(instants: readonly string[], zone: string, { say }: Pick<Printing, 'say'> = PLAIN): string {
  const days = instants.map((instant) => dayOf(instant, zone)).sort();
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return say('none');
  return first === last ? first : say('{low} to {high}', { low: first, high: last });
}

function partsOf(instant: string, zone: string): Record<string, string> {
  const parts = formatOf(zone).formatToParts(new Date(instant));
  return Object.fromEntries(parts.map(({ type, value }) => [type, value]));
}

/** Formats are kept: making one takes a hundred times as long as using it. */
const FORMATS = new Map<string, Intl.DateTimeFormat>();

function formatOf(zone: string): Intl.DateTimeFormat {
  const kept = FORMATS.get(zone);
  if (kept) return kept;
  const made = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  FORMATS.set(zone, made);
  return made;
}
