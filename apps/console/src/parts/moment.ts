import { withInstants } from '@breakbook/lab';

/** An instant as the lab's clock showed it: "28 Sep 2026, 08:50". The zone is named once per sheet. */
export function moment(instant: string, zone: string): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short', timeZone: zone }).format(
    new Date(instant),
  );
}

/** A stored sentence, each instant in it as the lab's clock showed it. */
export function withMoments(sentence: string, zone: string): string {
  return withInstants(sentence, (instant) => moment(instant, zone));
}

/** A calendar day, which has no zone: "28 Sep 2026". */
export function day(date: string): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeZone: 'UTC' }).format(
    new Date(`${date}T00:00:00Z`),
  );
}
