/** Values put in order, with equal ones sharing their place. */
export interface Midranks {
  /** Rank of each value from 1, in the order given; equal values share the mean of their ranks. */
  ranks: number[];
  /** How many values share each distinct value. */
  ties: number[];
}

export function midranks(values: readonly number[]): Midranks {
  const order = values.map((_, index) => index).sort((a, b) => (values[a] as number) - (values[b] as number));
  const ranks = new Array<number>(values.length).fill(0);
  const ties: number[] = [];
  for (let start = 0; start < order.length; ) {
    let end = start + 1;
    while (end < order.length && values[order[end] as number] === values[order[start] as number]) end++;
    for (let place = start; place < end; place++) ranks[order[place] as number] = (start + 1 + end) / 2;
    ties.push(end - start);
    start = end;
  }
  return { ranks, ties };
}
