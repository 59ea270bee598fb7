/** A function that tells on which calendar day of a zone an instant falls, as YYYY-MM-DD. */
export function daysIn(zone: string): (instant: string) => string {
  const format = new Intl.DateTimeFormat('en', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' });
  return (instant) => {
    const parts = new Map(format.formatToParts(new Date(instant)).map(({ type, value }) => [type, value]));
    return `${parts.get('year')}-${parts.get('month')}-${parts.get('day')}`;
  };
}
