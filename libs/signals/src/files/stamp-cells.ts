import { type LayoutTime, type ProblemCode, shown } from '@breakbook/lab';
import { type Said } from './problem-list.js';
import { type StampReader, stampReader } from './time-stamps.js';

const [LF, CR, SPACE] = [10, 13, 32];
const ascii = new TextDecoder('latin1');

/** The cells of a date-time column, as seconds since the first of them: so a double keeps every digit of a fraction. */
export class StampCells {
  firstInstant: number | undefined;
  private readonly reader: StampReader;
  private readonly form: string;
  private firstSecond = 0;

  constructor({ form, zone }: Extract<LayoutTime, { kind: 'date-time' }>) {
    this.form = form;
    this.reader = stampReader(form, zone);
  }

  /** Reads the stamp at `at` into `into[slot]` and answers the place after it; -1 where there is none. */
  scan(bytes: Uint8Array, at: number, delimiter: number, into: Float64Array, slot: number): number {
    let end = at;
    while (bytes[end] !== delimiter && bytes[end] !== LF && bytes[end] !== CR && end < bytes.length) end++;
    let last = end;
    while (last > at && bytes[last - 1] === SPACE) last--;
    const value = this.seconds(ascii.decode(bytes.subarray(at, last)));
    if (value === undefined) return -1;
    into[slot] = value;
    return end;
  }

  read(cell: string): { value: number } | { code: ProblemCode; said: Said } {
    const value = this.seconds(cell.trim());
    if (value !== undefined) return { value };
    return {
      code: 'number.syntax',
      said: {
        sentence: `"${shown(cell.trim())}" is no date and time of the form ${this.form}.`,
        found: cell,
        expected: this.form,
        action:
          'Check the clock and the export of the logger, or have a layout with the right form read the unread file.',
      },
    };
  }

  private seconds(text: string): number | undefined {
    const stamp = this.reader(text);
    if (!stamp) return undefined;
    if (this.firstInstant === undefined) {
      this.firstSecond = stamp.second;
      this.firstInstant = 1000 * (stamp.second + stamp.fraction);
    }
    return stamp.second - this.firstSecond + stamp.fraction;
  }
}
