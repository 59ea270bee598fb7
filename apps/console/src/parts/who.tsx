import type { Person } from '@breakbook/lab';

/** A person by the name they go by; written in its own direction, whatever stands around it. */
export function Who({ people, person }: { people: readonly Person[]; person: string }) {
  return <bdi>{people.find((one) => one.person === person)?.name ?? person}</bdi>;
}
