import type { DocumentInList } from '../../client/answers.js';

/** Whether and as what the lab signed a document. */
export function signedInWords({ signedWith, signedAs }: Pick<DocumentInList, 'signedWith' | 'signedAs'>): string {
  if (signedWith !== null) return `signed, with pair of keys ${signedWith}`;
  return signedAs === null ? 'draft' : `draft, signed as document ${signedAs}`;
}
