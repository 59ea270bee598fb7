/** Does the time-zone database that this system carries know the name? */
export function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

const INSTANT = /\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:\d\d)/g;

/** A text that was made for every lab, each instant in it told as this one reads clocks. */
export function withInstants(text: string, told: (instant: string) => string): string {
  return text.replace(INSTANT, told);
}
