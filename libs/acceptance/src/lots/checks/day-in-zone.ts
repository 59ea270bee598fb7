/** A function that tells on which calendar day of a zone an instant falls, as YYYY-MM-DD. */
export function daysIn(zone: string): (instant: string) => string {
  const format = new Intl.DateTimeFormat('en', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' });
  return (instant) => {
    const parts = new Map(format.formatToParts(new Date(instant)).map(({ type, value }) => [type, value]));
    return `${parts.get('year')}-${parts.get('month')}-${parts.get('day')}`;
  };
}

/** Is this a zone that the time-zone database knows? */
export function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
