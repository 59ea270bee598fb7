/** So small a share that no number of specimens tells it from none. */
const SMALLEST = 1e-12;
const POINTS = 12;

/**
 * Of what share below the limit is a population accepted with this chance? The share at which a falling curve of chances
 * crosses `power`, by a finer and finer grid of logarithms: each round asks for twelve shares at once, since a simulated
 * curve gives many shares for little more than one. Undefined where even the smallest share is accepted less often.
 */
export function shareAccepted(
  chancesAt: (shares: readonly number[]) => readonly number[],
  power: number,
  rounds: number,
): number | undefined {
  let [low, high] = [Math.log(SMALLEST), Math.log(0.999)];
  for (let round = 0; round < rounds; round++) {
    const logs = Array.from({ length: POINTS }, (_, index) => low + ((high - low) * index) / (POINTS - 1));
    const chances = chancesAt(logs.map(Math.exp));
    const over = chances.findIndex((chance) => chance < power);
    if (over === 0) return undefined;
    if (over < 0) return Math.exp(high);
    [low, high] = [logs[over - 1] as number, logs[over] as number];
  }
  return Math.exp(low);
}
