/** Limits of an interval; a side left out is open. */
export interface Interval {
  lower?: number | undefined;
  upper?: number | undefined;
}

/** Both ends as numbers, an open one infinite. */
export function endsOf({
  lower = Number.NEGATIVE_INFINITY,
  upper = Number.POSITIVE_INFINITY,
}: Interval): [number, number] {
  return [lower, upper];
}

export function requireInterval(caller: string, name: string, interval: Interval): void {
  const [lower, upper] = endsOf(interval);
  if (Number.isNaN(lower) || Number.isNaN(upper) || !(lower < upper))
    throw new RangeError(`${caller}: ${name} runs upward; got ${lower} to ${upper}.`);
}
