/** A stretch of equal readings at the top of a record: the sensor, amplifier or converter could show no more. */
export interface FlatTop {
  at: 'full scale' | 'below full scale';
  value: number;
  samples: number;
  from: number;
  to: number;
}

const FEWEST = 3;
/** Readings this near to full scale are at it. */
const FULL_SCALE_SHARE = 0.999;
/** A flat top is longer than this many times the longest stretch of equal readings on the way up. */
const LONGER_THAN_RISE = 3;

/**
 * Is the top of the record cut off? At full scale three equal readings in a row say so. Below it they may be no more
 * than the coarse steps of a converter on a slow rise, so there the stretch must also be clearly longer than any on the
 * way up.
 *
 * `peak` is the despiked peak: a single spike above must not hide a flat top. `from` and `to` bound the rise and
 * the top, as indices; `fullScale` is in the unit of the values.
 *
 * Three equal samples at the converter's limit: common practice, no source.
 */
export function findFlatTop(
  time: Float64Array,
  values: Float64Array,
  peak: number,
  span: { from: number; to: number },
  fullScale: number | undefined,
): FlatTop | undefined {
  let onTheWay = 1;
  let top: { start: number; samples: number } | undefined;
  for (let start = span.from; start < span.to; ) {
    const value = values[start] as number;
    let end = start + 1;
    while (end < span.to && values[end] === value) end++;
    const samples = end - start;
    if (value >= peak && samples > (top?.samples ?? 0)) top = { start, samples };
    if (value < peak && samples > onTheWay) onTheWay = samples;
    start = end;
  }
  if (!top || top.samples < FEWEST) return undefined;

  const value = values[top.start] as number;
  const atFullScale = fullScale !== undefined && value >= FULL_SCALE_SHARE * fullScale;
  if (!atFullScale && top.samples <= LONGER_THAN_RISE * onTheWay) return undefined;
  return {
    at: atFullScale ? 'full scale' : 'below full scale',
    value,
    samples: top.samples,
    from: time[top.start] as number,
    to: time[top.start + top.samples - 1] as number,
  };
}
