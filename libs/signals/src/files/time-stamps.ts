import { type LayoutTime } from '@breakbook/lab';
import { convert, valueIn } from '@breakbook/units';
import { type Fields } from './calendar.js';

const FIELDS = ['YYYY', 'MM', 'DD', 'hh', 'mm', 'ss', 'f'] as const;

/** Reads a date-time of one form: the fields of its clock and a fraction of a second; undefined where it has another. */
export type StampReader = (text: string) => { fields: Fields; fraction: number } | undefined;

/**
 * A reader of stamps of this form, such as `DD.MM.YYYY hh:mm:ss.f`. Two digits each but four of the year and any number
 * of the fraction, which may be left out with the sign before it.
 */
export function stampReader(form: string): StampReader {
  const order: string[] = [];
  const pattern = form
    .replace(/[\\^$.*+?()[\]{}|/-]/g, '\\$&')
    .replace(/(\\?[^A-Za-z0-9\\])?(YYYY|MM|DD|hh|mm|ss|f)/g, (_, before = '', field: string) => {
      order.push(field);
      if (field !== 'f') return `${before}(\\d{${field.length}})`;
      return `(?:${before}(\\d{1,15}))?`;
    });
  const expression = new RegExp(`^${pattern}$`);
  const places = FIELDS.map((field) => order.indexOf(field) + 1);

  return (text) => {
    const found = expression.exec(text);
    if (!found) return undefined;
    const digits = places[6] ? (found[places[6]] ?? '') : '';
    return {
      fields: places.slice(0, 6).map((place) => Number(found[place])) as Fields,
      fraction: digits === '' ? 0 : Number(`0.${digits}`),
    };
  };
}

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
