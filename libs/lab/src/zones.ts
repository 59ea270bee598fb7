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

/** An instant, or words between quotation marks. */
const INSTANT_OR_QUOTED = /"[^"]*"|\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:\d\d)/g;

/**
 * A text that was made for every lab, each instant in it told as this one reads clocks. What is quoted stays as it was
 * seen or written, letter by letter.
 */
export function withInstants(text: string, told: (instant: string) => string): string {
  return text.replace(INSTANT_OR_QUOTED, (found) => (found.startsWith('"') ? found : told(found)));
}
