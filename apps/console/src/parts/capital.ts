/** Reasons are kept without a capital and without a full stop, so that they fit into any sentence. */
export function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
