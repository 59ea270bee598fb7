import { type LayoutTime, type ProblemCode, shown } from '@breakbook/lab';
import { utcOf } from './calendar.js';
import { type ZoneReader, zoneReader } from './clock-zone.js';
import { type Said } from './problem-list.js';
import { type StampReader, stampReader } from './time-stamps.js';

const [LF, CR, SPACE] = [10, 13, 32];
const ascii = new TextDecoder('latin1');

type Read = { value: number } | { code: ProblemCode; said: Said };

/**
 * Date-times in one column, or in two of which the second has the time of day, as seconds since the first of them: so a
 * double keeps every digit of a fraction.
 */
export class StampCells {
  firstInstant: number | undefined;
  private readonly reader: StampReader;
  private readonly zone: ZoneReader;
  private readonly form: string;
  private firstSecond = 0;
  /** What the cells of the row being scanned say: the date (or all), and the time of day. */
  private scanned = '';
  private scannedClock = '';

  constructor({ form, zone }: Extract<LayoutTime, { kind: 'date-time' }>) {
    this.form = form;
    this.reader = stampReader(form);
    this.zone = zoneReader(zone);
  }

  /** Keeps what the cell at `at` says and answers the place after it. */
  scan(bytes: Uint8Array, at: number, delimiter: number, cell: 'date' | 'clock'): number {
    let end = at;
    while (bytes[end] !== delimiter && bytes[end] !== LF && bytes[end] !== CR && end < bytes.length) end++;
    let last = end;
    while (last > at && bytes[last - 1] === SPACE) last--;
    const text = ascii.decode(bytes.subarray(at, last));
    if (cell === 'date') this.scanned = text;
    else this.scannedClock = text;
    return end;
  }

  /** Seconds of the row just scanned; undefined where its cells are no stamp. */
  ofScanned(): number | undefined {
    const read = this.seconds(this.scannedClock === '' ? this.scanned : `${this.scanned} ${this.scannedClock}`);
    return 'value' in read ? read.value : undefined;
  }

  /** The same from the cells of a row: one, or the date and the time of day. */
  read(cells: readonly string[]): Read {
    return this.seconds(cells.map((cell) => cell.trim()).join(' '));
  }

  private seconds(text: string): Read {
    const stamp = this.reader(text);
    if (!stamp)
      return this.fault('number.syntax', text, {
        sentence: `"${shown(text)}" is no date and time of the form ${this.form}.`,
        action:
          'Check the clock and the export of the logger, or have a layout with the right form read the unread file.',
      });
    const local = utcOf(stamp.fields);
    if (local === undefined)
      return this.fault('meta.date', text, {
        sentence: `"${shown(text)}" is no date and time that there is.`,
        action: 'Check the clock of the logger, and whether day and month of the form are the right way round.',
      });
    const read = this.zone(local);
    if ('said' in read) return this.fault('meta.date', text, read.said);

    const second = read.instant / 1000;
    if (this.firstInstant === undefined) {
      this.firstSecond = second;
      this.firstInstant = 1000 * (second + stamp.fraction);
    }
    return { value: second - this.firstSecond + stamp.fraction };
  }

  private fault(code: ProblemCode, text: string, said: Said): Read {
    return { code, said: { expected: this.form, ...said, found: text } };
  }
}
