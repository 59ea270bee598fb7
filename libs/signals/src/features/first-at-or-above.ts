/** Index of the first value that reaches a level; the length of the record where none does. */
export function firstAtOrAbove(values: Float64Array, level: number): number {
  const index = values.findIndex((value) => value >= level);
  return index < 0 ? values.length : index;
}
