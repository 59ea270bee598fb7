import bidiFactory from 'bidi-js';

/** A piece of a line in one direction. */
export interface VisualRun {
  /** In the order in which it is read. */
  text: string;
  rightToLeft: boolean;
}

// Its types tell of a module with a default; what Node loads is the function itself.
const bidi = (bidiFactory as unknown as typeof bidiFactory.default)();

/**
 * In which order do the pieces of a line stand on paper, from left to right? The line is one of a text that runs from left
 * to right: a number after an Arabic word stands to its left, a Latin word after it to its right again, and brackets among
 * words that run from right to left are turned.
 *
 * Source: Unicode Standard Annex #9, Unicode Bidirectional Algorithm, rules P2 to L4, by the library.
 */
export function visualRuns(line: string): VisualRun[] {
  if (line === '') return [];
  if (!RIGHT_TO_LEFT.test(line)) return [{ text: line, rightToLeft: false }];
  const found = bidi.getEmbeddingLevels(line, 'ltr');
  const turned = bidi.getMirroredCharactersMap(line, found.levels);
  const runs: { indices: number[]; rightToLeft: boolean }[] = [];
  for (const index of bidi.getReorderedIndices(line, found)) {
    const rightToLeft = (found.levels[index] ?? 0) % 2 === 1;
    const last = runs.at(-1);
    const beside = last?.indices.at(-1);
    const follows = beside !== undefined && index === beside + (rightToLeft ? -1 : 1);
    if (last && follows && last.rightToLeft === rightToLeft) last.indices.push(index);
    else runs.push({ indices: [index], rightToLeft });
  }
  return runs.map(({ indices, rightToLeft }) => ({
    text: indices
      .sort((a, b) => a - b)
      .map((index) => turned.get(index) ?? line[index])
      .join(''),
    rightToLeft,
  }));
}

const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]/;
