import type { LayoutTime } from '@breakbook/lab';
import { convert, valueIn } from '@breakbook/units';
import type { Column } from './header.js';

/**
 * Sample numbers, epochs and stamps as seconds. A date-time column holds seconds since its first stamp already, and a
 * plain time stays in its own unit.
 */
export function inSeconds(values: Float64Array, layout: LayoutTime): Float64Array {
  const first = values[0] ?? 0;
  switch (layout.kind) {
    case 'sample number': {
      const rate = valueIn(layout.rate, 'Hz');
      return values.map((value) => value / rate);
    }
    case 'epoch':
      return values.map((value) => convert(value - first, layout.unit, 's'));
    case 'time':
    case 'date-time':
      return values;
  }
}

/**
 * Rows that share a stamp, spread evenly up to the next one. Before the first change and after the last the spacing is
 * that of the neighbouring stamp, since the record may begin or end in the middle of one.
 */
export function spreadStamps(time: Float64Array): Float64Array {
  const spread = time.slice();
  const starts: number[] = [];
  for (let i = 0; i < time.length; i++) if (i === 0 || time[i] !== time[i - 1]) starts.push(i);
  if (starts.length < 2 || starts.length === time.length) return spread;

  const spacing = (group: number): number => {
    const [from, to] = [starts[group] as number, starts[group + 1] as number];
    return ((time[to] as number) - (time[from] as number)) / (to - from);
  };
  for (let group = 0; group < starts.length; group++) {
    const from = starts[group] as number;
    const next = starts[group + 1];
    const count = (next ?? time.length) - from;
    const stamp = time[from] as number;
    if (group === 0 && next !== undefined && starts.length > 2) {
      const step = Math.min(spacing(1), spacing(0));
      for (let i = 0; i < count; i++) spread[from + i] = (time[next] as number) - (count - i) * step;
    } else {
      const step =
        next === undefined
          ? Math.min(
              spacing(group - 1),
              ((time[from] as number) - (time[starts[group - 1] as number] as number)) / count,
            )
          : spacing(group);
      for (let i = 0; i < count; i++) spread[from + i] = stamp + i * step;
    }
  }
  return spread;
}

/** The columns with their time in seconds, where the layout says that it is something else than a plain time. */
export function timed(
  columns: Column[],
  values: Float64Array[],
  layout: LayoutTime,
): { columns: Column[]; values: Float64Array[] } {
  const at = columns.findIndex(({ carries }) => 'time' in carries);
  const [column, written] = [columns[at], values[at]];
  if (!column || !written) return { columns, values };
  const plain = layout.kind === 'time';
  const time = inSeconds(written, layout);
  return {
    columns: plain ? columns : columns.with(at, { ...column, unit: 's' }),
    values: values.with(at, layout.repeatedStamps ? spreadStamps(time) : time),
  };
}
