/** Year, month (from 1), day, hour, minute, second. */
export type Fields = [year: number, month: number, day: number, hour: number, minute: number, second: number];

/** A year before it is a clock that was never set. */
const EARLIEST_YEAR = 1900;

/** What a clock at UTC that shows these fields means, in milliseconds since 1970; undefined where no clock shows them. */
export function utcOf(fields: Fields): number | undefined {
  const [year, month, day, hour, minute, second] = fields;
  const instant = Date.UTC(year, month - 1, day, hour, minute, second);
  const back = new Date(instant);
  // A calendar that turns 30 February into 2 March has to be caught: what was written must come back.
  const comesBack =
    back.getUTCFullYear() === year &&
    back.getUTCMonth() === month - 1 &&
    back.getUTCDate() === day &&
    back.getUTCHours() === hour &&
    back.getUTCMinutes() === minute &&
    back.getUTCSeconds() === second;
  return comesBack && year >= EARLIEST_YEAR ? instant : undefined;
}
