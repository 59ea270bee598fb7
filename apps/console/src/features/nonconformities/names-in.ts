/** Names written one after another, with blanks, commas or lines between. */
export function namesIn(written: string): string[] {
  return [...new Set(written.split(/[\s,;]+/).filter((name) => name !== ''))];
}
