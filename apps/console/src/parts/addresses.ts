/** Addresses of the sheets. Names come from people and files, so they are encoded. */
export function lotAddress(lot: string): string {
  return `/lots/${encodeURIComponent(lot)}`;
}

export function runAddress(lot: string, run: string): string {
  return `${lotAddress(lot)}/runs/${encodeURIComponent(run)}`;
}
