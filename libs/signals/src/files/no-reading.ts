/**
 * What stands in a column of a file, between reading and giving it out, where a declared token says that there was no
 * reading. It never leaves the files: `readings` takes these rows away.
 */
export const NO_READING = Number.NaN;

/** A declared token as bytes; none at all for an empty cell. */
export type Token = Uint8Array;

const [LF, CR, SPACE] = [10, 13, 32];

export function tokensOf(texts: readonly string[]): Token[] {
  return texts.map((text) => new TextEncoder().encode(text));
}

/** The place after a token that is the whole of the cell at `at`; -1 where none is. */
export function noReadingHere(bytes: Uint8Array, at: number, delimiter: number, tokens: readonly Token[] = []): number {
  for (const token of tokens) {
    let i = 0;
    while (i < token.length && bytes[at + i] === token[i]) i++;
    if (i < token.length) continue;
    let end = at + i;
    while (bytes[end] === SPACE) end++;
    if (bytes[end] === delimiter || bytes[end] === LF || bytes[end] === CR) return end;
  }
  return -1;
}

/** Did the column have no reading in some row? */
export function hasNoReading(values: Float64Array): boolean {
  return values.some(Number.isNaN);
}
