/** A chain that moves between states until it leaves them for good. */
export interface AbsorbingChain {
  /** For each state: the chances to move to each state, those to stay (on the diagonal) unused. Used up. */
  moves: Float64Array[];
  /** For each state: the chance to leave for good. Used up. */
  leave: Float64Array;
}

/**
 * Mean number of steps from state 0 until the chain leaves for good, infinite where it need not. States are taken out one after the other, last first,
 * their chances and the steps spent in them handed on to those that lead there. The chance to stay is never used but formed
 * from all others, so that nothing is subtracted and the longest mean keeps its digits, where elimination from
 * 1 - chance to stay would lose all of them.
 *
 * Source: Grassmann, Taksar and Heyman (1985), Oper. Res. 33, 1107-1116.
 */
export function stepsToAbsorption({ moves, leave }: AbsorbingChain): number {
  const spent = new Float64Array(leave.length).fill(1);
  for (let state = leave.length - 1; state > 0; state--) {
    const from = moves[state] as Float64Array;
    let away = leave[state] as number;
    for (let index = 0; index < state; index++) away += from[index] as number;
    for (let row = 0; row < state; row++) {
      const into = moves[row] as Float64Array;
      const entered = into[state] as number;
      if (entered === 0) continue;
      // Who gets here stays for ever.
      if (away === 0) return Number.POSITIVE_INFINITY;
      const share = entered / away;
      for (let index = 0; index < state; index++)
        into[index] = (into[index] as number) + share * (from[index] as number);
      leave[row] = (leave[row] as number) + share * (leave[state] as number);
      spent[row] = (spent[row] as number) + share * (spent[state] as number);
    }
  }
  return (spent[0] as number) / (leave[0] as number);
}
