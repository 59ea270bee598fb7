import type { SheetWords } from '../parts/blocks.js';
import { PLAIN, type Printing } from './printing.js';

/** What every kind of document says around its content. */
export function sheetWords({ say, language }: Pick<Printing, 'say' | 'language'>): SheetWords {
  return {
    language,
    page: (page, of) => say('page {page} of {of}', { page, of }),
    stateAndNext: (state, next) => say('State: {state}. Next: {next}.', { state, next }),
    missing: (sign) =>
      say('{sign} stands for a letter that the fonts of this file do not have; the attached content keeps it.', {
        sign,
      }),
    signatureOf: (by) => say('Signature of {name}', { name: by }),
    content: say('The content of this document as canonical JSON (RFC 8785)'),
    signature: say('The signature of that content (RFC 7515, detached)'),
    record: say('The entry of the ledger that names that content, with its proof under a checkpoint (RFC 9162)'),
    raw: say('A raw file as the rig wrote it'),
  };
}

export const ENGLISH_SHEET: SheetWords = sheetWords(PLAIN);
