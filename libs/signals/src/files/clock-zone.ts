import type { Said } from './problem-list.js';

/** What a clock shows, as milliseconds since 1970 if it were at UTC, made into the instant it means; or why it is none. */
export type ZoneReader = (shown: number) => { instant: number } | { said: Said };

const DAY = 86_400_000;
/** No clock is further from UTC than this. */
const FURTHEST = 16 * 3_600_000;
/** Clocks are set at whole quarters of an hour; where one was not, both ends of its quarter differ and no answer is kept. */
const QUARTER = 900_000;

/**
 * The clock of a zone: an offset from UTC, or a name of the IANA time-zone database. Where such a clock is set forward
 * an hour never comes, and where it is set back one comes twice: a time in either is refused, since the instant would be
 * a guess.
 */
export function zoneReader(zone: string): ZoneReader {
  if (/^[Z+-]/.test(zone)) {
    const offset = offsetOf(zone);
    return (shown) => ({ instant: shown - offset });
  }
  const ahead = aheadIn(zone);
  const ofDay = remembered(DAY, (day) => dayOffset(day, ahead));
  const ofQuarter = remembered(QUARTER, (start) => quarterOffset(start, ahead));
  return (shown) => {
    const offset = ofDay(shown) ?? ofQuarter(shown);
    if (offset !== undefined) return { instant: shown - offset };
    const [instant, second] = instantsOf(shown, ahead);
    if (instant !== undefined && second === undefined) return { instant };
    return { said: whyNoInstant(zone, instant === undefined) };
  };
}

/** What was worked out for the stretch of this length in which the time before lay, since times go on row by row. */
function remembered<T>(length: number, workOut: (start: number) => T): (shown: number) => T {
  let [start, last] = [Number.NaN, undefined as T | undefined];
  return (shown) => {
    const begins = Math.floor(shown / length) * length;
    if (begins !== start) [start, last] = [begins, workOut(begins)];
    return last as T;
  };
}

/** The zone's distance from UTC on a day on which, and round which, its clock is not set. */
function dayOffset(day: number, ahead: (instant: number) => number): number | undefined {
  const [before, noon, after] = [day - FURTHEST, day + DAY / 2, day + DAY + FURTHEST].map(ahead);
  return before === noon && noon === after ? noon : undefined;
}

/** The one distance that both ends of a quarter of an hour have; undefined where they do not have one. */
function quarterOffset(start: number, ahead: (instant: number) => number): number | undefined {
  const [first, last] = [start, start + QUARTER - 1].map((shown) => instantsOf(shown, ahead).map((one) => shown - one));
  return first?.length === 1 && last?.length === 1 && first[0] === last[0] ? first[0] : undefined;
}

/** Milliseconds by which a clock of this offset is ahead of UTC. */
function offsetOf(zone: string): number {
  if (zone === 'Z') return 0;
  const minutes = Number(zone.slice(1, 3)) * 60 + Number(zone.slice(4, 6));
  return (zone.startsWith('-') ? -minutes : minutes) * 60_000;
}

/** By how much the clock of a named zone is ahead of UTC at an instant, ms. */
function aheadIn(zone: string): (instant: number) => number {
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    calendar: 'gregory',
    numberingSystem: 'latn',
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  });
  return (instant) => {
    const whole = Math.floor(instant / 1000) * 1000;
    // "10/25/2026, 01:30:00": four times as fast as asking for the parts.
    const [month = 1, day, year = 0, hour, minute, second] = (format.format(whole).match(/\d+/g) ?? []).map(Number);
    return Date.UTC(year, month - 1, day, hour, minute, second) - whole;
  };
}

/**
 * Every instant at which the clock shows this. The zone's distances from UTC a day before, at and a day after hold all
 * that it can have at the moment itself.
 */
function instantsOf(shown: number, ahead: (instant: number) => number): number[] {
  const distances = new Set([shown - DAY, shown, shown + DAY].map(ahead));
  return [...distances].map((distance) => shown - distance).filter((instant) => instant + ahead(instant) === shown);
}

function whyNoInstant(zone: string, never: boolean): Said {
  return never
    ? {
        sentence: `no clock of ${zone} shows this time: it is set forward over it.`,
        expected: `a time that the clock of ${zone} shows`,
        action:
          'Find out in which zone the clock of the logger runs; have a layout with that zone read the unread file.',
      }
    : {
        sentence: `the clock of ${zone} shows this time twice, before and after it is set back, and neither is chosen.`,
        expected: 'a time with its offset from UTC',
        action:
          'Have a layout with the offset that the clock had, such as +01:00, read the unread file; let loggers run at UTC.',
      };
}
