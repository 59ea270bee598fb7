import { ClockZone } from '@breakbook/lab';
import { type Fields, utcOf } from './calendar.js';
import { zoneReader } from './clock-zone.js';
import type { Said } from './problem-list.js';

/*
 * The one reading of instants in run files: date and time of ISO 8601-1:2019 in the extended form, as RFC 3339 (5.6)
 * narrows it, with its zone:
 *
 *     2031-03-04T09:12:00Z      2031-03-04T10:12:00.250+01:00
 */
const FORM = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)(?::(\d\d)(?:\.(\d{1,9}))?)?(Z|[+-]\d\d:\d\d)?$/;
const EXPECTED = 'date, time and zone, such as 2031-03-04T09:12:00Z or 2031-03-04T10:12:00+01:00';

/**
 * Milliseconds since 1970 UTC of an instant written with its zone, or why it is none. `clockZone` is the zone of a clock
 * that writes none, where the layout says so; a time that its zone does not have, or has twice, is none.
 */
export function readInstant(text: string, clockZone?: string): { instant: number } | { said: Said } {
  const say = (sentence: string, action: string) => ({ said: { sentence, found: text, expected: EXPECTED, action } });
  const found = FORM.exec(text);
  if (!found) return say('this is no date and time that is read here.', 'Write the instant in the form shown.');

  const fields = found.slice(1, 7).map((field) => Number(field ?? 0)) as Fields;
  const zone = found[8] ?? clockZone;
  // RFC 3339, 4.3: "-00:00" says that the zone is not known.
  if (zone === undefined || zone === '-00:00')
    return say(
      'the date and time have no zone, and none is assumed.',
      'Add Z for UTC, or the offset of the rig’s clock, such as +01:00.',
    );

  const milliseconds = Number((found[7] ?? '').padEnd(3, '0').slice(0, 3));
  const local = utcOf(fields);
  const known = ClockZone.safeParse(zone).success;
  if (local === undefined || !known)
    return say('there is no such date, time or zone.', 'Set the clock of the rig and write the instant by hand.');
  const read = zoneReader(zone)(local + milliseconds);
  return 'said' in read ? { said: { ...read.said, found: text } } : read;
}
