/**
 * The value below which a share of simulated numbers lies, and its standard error, by the number of them that would fall
 * one standard error to either side. Sorts the numbers it is given.
 *
 * Source: David and Nagaraja (2003), Order Statistics, 3rd ed., section 7.1.
 */
export function lowerPercentile(values: Float64Array, share: number): { value: number; error: number } {
  values.sort();
  const at = (place: number) => values[Math.max(0, Math.min(values.length - 1, Math.floor(place)))] as number;
  const place = values.length * share;
  const off = Math.sqrt(values.length * share * (1 - share));
  return { value: at(place), error: (at(place + off) - at(place - off)) / 2 };
}
