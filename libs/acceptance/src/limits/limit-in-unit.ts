import type { Limit } from '@breakbook/lab';
import { converter } from '@breakbook/units';

/** The ends of an interval; a side left out is open. */
export interface Range {
  lower?: number;
  upper?: number;
}

/** What a limit asks of a value written in `unit`. A temperature difference converts without the zero point. */
export function limitIn(limit: Limit, unit: string, difference: boolean): Range {
  // Signs are counted, whatever is measured beside them.
  if (limit.bound === 'absent') return { upper: 0 };
  const converted = converter(limit.unit, unit, { difference });
  switch (limit.bound) {
    case 'at least':
      return { lower: converted(limit.value) };
    case 'at most':
      return { upper: converted(limit.value) };
    case 'between':
      return { lower: converted(limit.lower), upper: converted(limit.upper) };
  }
}

/** The limit moved to the safe side by the guard band w: AL = TL + w below, TL - w above (ILAC-G8:09/2019, 4.2.2). */
export function guarded({ lower, upper }: Range, guardBand: number): Range {
  return {
    ...(lower === undefined ? {} : { lower: lower + guardBand }),
    ...(upper === undefined ? {} : { upper: upper - guardBand }),
  };
}
