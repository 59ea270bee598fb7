/** How many samples lie in a window of so many seconds: odd, at least 1. */
export function windowSamples(seconds: number, period: number): number {
  return 2 * Math.floor(seconds / period / 2) + 1;
}
