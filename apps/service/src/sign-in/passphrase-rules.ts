import { Refusal } from '@breakbook/lab';
import { ZxcvbnFactory } from '@zxcvbn-ts/core';
import { adjacencyGraphs, dictionary } from '@zxcvbn-ts/language-common';
import { LONGEST, SHORTEST } from './passphrase-length.js';

/** Guesses that a passphrase must outlast, as a power of ten. */
const ENOUGH_GUESSES = 10;
/** The estimate takes time with the square of the length, and the first hundred characters decide it. */
const ESTIMATED = 100;

let judge: ZxcvbnFactory | undefined;

/**
 * Refuses a new passphrase that is short or among those tried first: a list of 49,000 common ones, also doubled, turned
 * round, with digits behind or with numbers for letters, runs of the keyboard and of the alphabet, and what is known of
 * its owner. No kind of character is asked for, which only makes people write `Passw0rd!` (SP 800-63B).
 *
 * How many guesses it takes is estimated as in Wheeler (2016), zxcvbn, USENIX Security, 157-173.
 */
export function refuseWeakPassphrase(passphrase: string, known: string[]): void {
  const length = [...passphrase].length;
  if (length < SHORTEST || length > LONGEST)
    throw weak(
      `A passphrase has ${SHORTEST} to ${LONGEST} characters; this one has ${length}.`,
      'Take several words that do not belong together. Spaces are welcome, no kind of character is needed.',
    );
  judge ??= new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs, maxLength: ESTIMATED });
  const words = known.flatMap((one) => [one, ...one.split(/[\s.,_-]+/)]).filter((one) => one.length > 2);
  const { guessesLog10 } = judge.check(passphrase.slice(0, ESTIMATED), [...words, 'breakbook']);
  if (guessesLog10 < ENOUGH_GUESSES)
    throw weak(
      'This passphrase is long, but among those that are tried first: common ones, repetitions, runs of the keyboard, or words about you.',
      'Take several words that do not belong together.',
    );
}

function weak(detail: string, action: string): Refusal {
  return new Refusal({ code: 'body.text-invalid', pointer: '/passphrase', detail, action });
}
