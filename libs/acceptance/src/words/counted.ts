/** `1 specimen`, `8 specimens`, `no specimens`. */
export function counted(number: number, noun: string): string {
  return `${number === 0 ? 'no' : number} ${noun}${number === 1 ? '' : 's'}`;
}

/** Up to six names, and how many more there are. */
export function listed(names: readonly string[]): string {
  const shown = names.slice(0, 6);
  const rest = names.length - shown.length;
  return rest === 0 ? shown.join(', ') : `${shown.join(', ')} and ${rest} more`;
}
