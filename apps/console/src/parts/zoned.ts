/** What the clock of a zone shows at an instant, as fields of a form take it: "2026-09-28T06:50:00". */
export function clockIn(zone: string, instant: string | number): string {
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(new Date(instant));
  const of = (type: string) => parts.find((one) => one.type === type)?.value ?? '';
  return `${of('year').padStart(4, '0')}-${of('month')}-${of('day')}T${of('hour')}:${of('minute')}:${of('second')}`;
}

/**
 * The instant at which the clock of a zone shows this; undefined where it never does, as in the hour that is left out
 * in spring. Of the hour that comes twice in autumn it is the first.
 */
export function instantOf(zone: string, clock: string): string | undefined {
  const shown = /^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(clock) ? `${clock}:00` : clock;
  const asUtc = Date.parse(`${shown}Z`);
  if (Number.isNaN(asUtc)) return undefined;
  // The zone's distance from UTC a day before and after holds both distances it can have at the moment itself.
  const distances = [-DAY, DAY].map((away) => Date.parse(`${clockIn(zone, asUtc + away)}Z`) - (asUtc + away));
  const instants = distances
    .map((distance) => asUtc - distance)
    .filter((instant) => clockIn(zone, instant) === shown)
    .sort((a, b) => a - b);
  const [first] = instants;
  return first === undefined ? undefined : new Date(first).toISOString();
}

const DAY = 86_400_000;
