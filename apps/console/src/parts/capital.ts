/** A reason that stands alone: with a capital and one full stop. */
export function asSentence(reason: string): string {
  return `${capital(reason.replace(/\.$/, ''))}.`;
}

/** Reasons are kept without a capital and without a full stop, so that they fit into any sentence. */
export function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
