import type { TableShape } from './table-shape.js';

/** Parts of a written date and time, with the signs between them. */
const WRITTEN = /^(\d{4}|\d{2})([./-])(\d{2})\2(\d{4}|\d{2})([ T])(\d{2}):(\d{2}):(\d{2})(?:([.,])\d{1,9})?$/;

/** The form of these stamps, as a layout declares it; undefined where they are no date and time with seconds. */
function dateForm(cells: readonly string[]): { form: string; eitherOrder: boolean } | undefined {
  const found = cells.map((cell) => WRITTEN.exec(cell));
  const first = found[0];
  if (!first || found.some((one) => one === null)) return undefined;
  const [, a = '', sign = '', , c = '', between = ''] = first;
  const fraction = found.find((one) => one?.[9])?.[9];
  const clock = `${between}hh:mm:ss${fraction ? `${fraction}f` : ''}`;
  if (a.length === 4) return { form: `YYYY${sign}MM${sign}DD${clock}`, eitherOrder: false };
  if (c.length !== 4) return undefined;
  // With a day above 12 the order is told; without, it is not.
  const larger = (group: number) => found.some((one) => Number(one?.[group]) > 12);
  const monthFirst = larger(3) && !larger(1);
  return {
    form: `${monthFirst ? 'MM' : 'DD'}${sign}${monthFirst ? 'DD' : 'MM'}${sign}YYYY${clock}`,
    eitherOrder: !larger(1) && !larger(3),
  };
}

/** The column, or the two beside each other, that hold dates with times of day: first the one taken for the time. */
export function datedBy({ rows, width }: TableShape, at: number) {
  const cell = (row: readonly string[], column: number) => (row[column] as string).trim();
  const alone = dateForm(rows.map((row) => cell(row, at)));
  if (alone) return { ...alone, date: at, clock: -1, first: cell(rows[0] as string[], at) };
  for (let column = 2; column <= width; column++)
    for (const [date, clock] of [
      [column - 2, column - 1],
      [column - 1, column - 2],
    ] as const) {
      const together = rows.map((row) => `${cell(row, date)} ${cell(row, clock)}`);
      const found = dateForm(together);
      if (found) return { ...found, date, clock, first: together[0] as string };
    }
  return undefined;
}
