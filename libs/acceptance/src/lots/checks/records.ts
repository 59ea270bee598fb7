import {
  type Limit,
  type LimitRef,
  type LotBundle,
  type Method,
  type PlanLine,
  type Problem,
  type ProblemCode,
  type Specimen,
  shown,
} from '@breakbook/lab';
import { daysIn } from './day-in-zone.js';

/** What the records of a bundle may name, found by key. */
export interface Records {
  bundle: LotBundle;
  people: ReadonlySet<string>;
  specimens: ReadonlyMap<string, Specimen>;
  lines: ReadonlyMap<string, PlanLine>;
  rigs: ReadonlySet<string>;
  sensors: ReadonlySet<string>;
  /** On which day of the lab's zone an instant falls. */
  dayOf: (instant: string) => string;
  methodOf: (ref: { method: string; methodRevision: number }) => Method | undefined;
  limitOf: (ref: LimitRef) => Limit | undefined;
}

export function recordsOf(bundle: LotBundle): Records {
  return {
    bundle,
    people: new Set(bundle.people.map(({ person }) => person)),
    specimens: new Map(bundle.specimens.map((one) => [one.specimen, one])),
    lines: new Map(bundle.plan.lines.map((one) => [one.line, one])),
    rigs: new Set(bundle.rigs.map(({ rig }) => rig)),
    sensors: new Set(bundle.sensors.map(({ sensor }) => sensor)),
    dayOf: daysIn(bundle.lab.zone),
    methodOf: (ref) => bundle.methods.find((one) => one.method === ref.method && one.revision === ref.methodRevision),
    limitOf: (ref) => bundle.limits.find((one) => one.limit === ref.limit && one.revision === ref.revision),
  };
}

/** A problem at one place of the bundle. */
export function problemAt(code: ProblemCode, pointer: string, detail: string, found?: string): Problem {
  return { code, pointer, detail: `${pointer}: ${detail}`, ...(found === undefined ? {} : { found: shown(found) }) };
}

/** A person named where the bundle holds no such person. */
export function unknownPerson({ people }: Records, person: string, pointer: string): Problem[] {
  if (people.has(person)) return [];
  return [
    problemAt(
      'body.not-found',
      pointer,
      `there is no person ${shown(person)}. Add the person to the people of the lab, or correct the key.`,
      person,
    ),
  ];
}
