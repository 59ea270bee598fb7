import type { Reading } from '@breakbook/lab';

/** By which methods these runs were read, each once. */
export function methodsOf(readings: readonly Reading[]): string[] {
  return [...new Set(readings.map(({ method: { method, revision } }) => `${method} rev. ${revision}`))];
}
