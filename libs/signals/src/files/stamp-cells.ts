import { type LayoutTime, type ProblemCode, shown } from '@breakbook/lab';
import { type Fields, utcOf } from './calendar.js';
import { type ZoneReader, zoneReader } from './clock-zone.js';
import type { Said } from './problem-list.js';
import { StampForm } from './stamp-form.js';

const [LF, CR, SPACE] = [10, 13, 32];
/** A form has at most 60 characters, and a fraction 15 digits. */
const LONGEST = 256;
const MINUTE = 60_000;
const encoder = new TextEncoder();

type Read = { value: number } | { code: ProblemCode; said: Said };

/**
 * Date-times in one column, or in two of which the second has the time of day, as seconds since the first of them: so a
 * double keeps every digit of a fraction.
 */
export class StampCells {
  firstInstant: number | undefined;
  private readonly reader: StampForm;
  private readonly zone: ZoneReader;
  private readonly form: string;
  private firstSecond = 0;
  /** Where the cells of the row being scanned stand: of the date (or all), and of the time of day. */
  private date = [0, 0];
  private clock = [0, 0];
  private readonly stamp = new Uint8Array(LONGEST);
  /** The minute of the stamp before: rows of one minute ask the calendar once. */
  private minute: { fields: Fields; local: number | undefined } = { fields: [0, 0, 0, 0, 0, 0], local: undefined };

  constructor({ form, zone }: Extract<LayoutTime, { kind: 'date-time' }>) {
    this.form = form;
    this.reader = new StampForm(form);
    this.zone = zoneReader(zone);
  }

  /** Notes where the cell at `at` stands and answers the place after it. */
  scan(bytes: Uint8Array, at: number, delimiter: number, cell: 'date' | 'clock'): number {
    let end = at;
    while (bytes[end] !== delimiter && bytes[end] !== LF && bytes[end] !== CR && end < bytes.length) end++;
    let last = end;
    while (last > at && bytes[last - 1] === SPACE) last--;
    const place = cell === 'date' ? this.date : this.clock;
    place[0] = at;
    place[1] = last;
    return end;
  }

  /** Seconds of the row just scanned; undefined where its cells are no stamp. */
  ofScanned(bytes: Uint8Array): number | undefined {
    const [dateFrom = 0, dateTo = 0] = this.date;
    const [clockFrom = 0, clockTo = 0] = this.clock;
    if (dateTo - dateFrom + clockTo - clockFrom + 1 > LONGEST) return undefined;
    let length = 0;
    for (let at = dateFrom; at < dateTo; at++) this.stamp[length++] = bytes[at] as number;
    if (clockTo > clockFrom) this.stamp[length++] = SPACE;
    for (let at = clockFrom; at < clockTo; at++) this.stamp[length++] = bytes[at] as number;
    if (!this.reader.read(this.stamp, length)) return undefined;
    const local = this.localSecond();
    const read = local === undefined ? undefined : this.zone(local);
    return read && 'instant' in read ? this.sinceFirst(read.instant) : undefined;
  }

  /** The same from the cells of a row: one, or the date and the time of day; why it is none otherwise. */
  read(cells: readonly string[]): Read {
    const text = cells.map((cell) => cell.trim()).join(' ');
    const bytes = encoder.encode(text);
    if (!this.reader.read(bytes, bytes.length))
      return this.fault('number.syntax', text, {
        sentence: `"${shown(text)}" is no date and time of the form ${this.form}.`,
        action:
          'Check the clock and the export of the logger, or have a layout with the right form read the unread file.',
      });
    const local = this.localSecond();
    if (local === undefined)
      return this.fault('meta.date', text, {
        sentence: `"${shown(text)}" is no date and time that there is.`,
        action: 'Check the clock of the logger, and whether day and month of the form are the right way round.',
      });
    const read = this.zone(local);
    return 'said' in read ? this.fault('meta.date', text, read.said) : { value: this.sinceFirst(read.instant) };
  }

  /** What the clock showed, to the second, as if it were at UTC; undefined where no clock shows it. */
  private localSecond(): number | undefined {
    const [year, month, day, hour, minute, second] = this.reader.fields;
    const { fields } = this.minute;
    if (fields[4] !== minute || fields[3] !== hour || fields[2] !== day || fields[1] !== month || fields[0] !== year) {
      const whole: Fields = [year, month, day, hour, minute, 0];
      this.minute = { fields: whole, local: utcOf(whole) };
    }
    const { local } = this.minute;
    return local === undefined || second * 1000 >= MINUTE ? undefined : local + second * 1000;
  }

  private sinceFirst(instant: number): number {
    const { fraction } = this.reader;
    const second = instant / 1000;
    if (this.firstInstant === undefined) {
      this.firstSecond = second;
      this.firstInstant = 1000 * (second + fraction);
    }
    return second - this.firstSecond + fraction;
  }

  private fault(code: ProblemCode, text: string, said: Said): Read {
    return { code, said: { expected: this.form, ...said, found: text } };
  }
}
