import type { Measurement, Run } from '@breakbook/lab';

type Giver = NonNullable<Measurement['givenBy']>;

/** Marks of what this lab did not measure (ISO/IEC 17025:2017, 7.8.2.1 p and 7.8.2.2; from memory). */
export const GIVEN_MARKS: Record<Giver, string> = { customer: '†', 'outside provider': '‡' };

export const GIVEN_WORDS = {
  customer: 'given by the customer, not measured by this lab, which answers for no effect it has on the results',
  'outside provider': 'measured by an outside provider, not by this lab',
} as const satisfies Record<Giver, string>;

/** Who gave a value of a run, where the lab did not measure it. */
export function giverOf({ measurements }: Pick<Run, 'measurements'>, name: string): Giver | undefined {
  return measurements.find(({ of }) => of === name)?.givenBy;
}

/** Who gave values of these runs, each once. */
export function giversOf(runs: readonly Pick<Run, 'measurements'>[]): Giver[] {
  return [...new Set(runs.flatMap(({ measurements }) => measurements.flatMap(({ givenBy }) => givenBy ?? [])))].sort();
}
