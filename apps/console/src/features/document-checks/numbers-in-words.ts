import { printSignificant } from '@breakbook/units';
import type { DocumentCheck } from '../../client/answers.js';

export type Recomputed = NonNullable<DocumentCheck['recomputed']>;
export type Difference = Recomputed['differences'][number];

/** What came of working out every number again. */
export function numbersInWords({ numbers, count, since }: Pick<Recomputed, 'numbers' | 'count' | 'since'>): string {
  if (count === 0) return `${numbers} numbers: each identical, to its last bit`;
  const differ = count === 1 ? '1 place differs' : `${count} places differ`;
  return `${numbers} numbers: ${differ} since ${sinceInWords(since)}; every other number is identical, to its last bit`;
}

/** By which revisions of methods and which software a document's numbers came to be. */
export function sinceInWords({ methods, software }: Recomputed['since']): string {
  return [...methods, software].join(', ');
}

/** What is worked out now less what stands in the document, where both are numbers. */
export function differsBy({ kept, now }: Pick<Difference, 'kept' | 'now'>): string {
  if (kept === undefined) return 'not in the document';
  if (now === undefined) return 'no more there';
  const difference = Number(now) - Number(kept);
  if (!Number.isFinite(difference)) return 'other words';
  // What differs in its last bits alone is read by its power of ten.
  const size =
    Math.abs(difference) < 1e-6 ? Math.abs(difference).toExponential(2) : printSignificant(Math.abs(difference), 3);
  return `${difference < 0 ? '−' : '+'}${size}`;
}
