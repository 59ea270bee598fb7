import type { Method, Quantity } from '@breakbook/lab';
import type { NewRun } from '../../../client/answers.js';
import { instantOf } from '../../../parts/zoned.js';
import type { ConditionDraft, Draft, MeasurementDraft, PassageDraft } from './draft.js';
import { typedNumber } from './typed-number.js';

/** What a draft was found to name. */
export interface Named {
  /** Its code, also where the serial was scanned. */
  specimen: string;
  plan: { plan: string; revision: number };
  line: string;
  method: Method;
  /** Of the rig's file layout; none where the run has no rig. */
  layoutRevision: number | undefined;
  /** Who is signed in, and so made the run. */
  person: string;
  zone: string;
  /** Proposed where nobody typed another one. */
  number: string;
  /** The instant of sending. */
  now: string;
}

/** A draft as the run that is sent, or everything it still lacks, one sentence for each. */
export function toNewRun(draft: Draft, named: Named): { run: NewRun } | { lacking: string[] } {
  const lacking: string[] = [];
  const quantity = (what: string, text: string, unit: string): Quantity => {
    const read = typedNumber(text);
    if ('said' in read) lacking.push(`${what}: ${read.said}`);
    if (unit === '') lacking.push(`${what}: choose the unit; nothing is assumed.`);
    return { value: 'value' in read ? read.value : 0, unit };
  };
  const instant = (what: string, clock: string): string => {
    const read = instantOf(named.zone, clock);
    if (read === undefined) lacking.push(`${what}: say when, as the lab's clock showed it.`);
    return read ?? named.now;
  };
  const required = (what: string, text: string): string => {
    if (text.trim() === '') lacking.push(`${what} is missing.`);
    return text.trim();
  };

  const startedAt = instant('When the run began', draft.startedAt);
  const examination = examinationOf(draft, named, lacking);
  const run: NewRun = {
    run: required('The number of the run', draft.run ?? named.number),
    specimen: named.specimen,
    plan: named.plan,
    planLine: named.line,
    method: named.method.method,
    methodRevision: named.method.revision,
    ...(draft.rig.trim() === '' ? {} : { rig: draft.rig.trim() }),
    ...(named.layoutRevision === undefined ? {} : { layoutRevision: named.layoutRevision }),
    operator: named.person,
    startedAt,
    conditions: Object.fromEntries(draft.conditions.map((one) => conditionOf(one, quantity, required))),
    ...(draft.passages.length === 0
      ? {}
      : { passages: draft.passages.map((one, index) => passageOf(one, index + 1, quantity, required, instant)) }),
    measurements: draft.measurements.map((one, index) =>
      measurementOf(one, index + 1, named.person, quantity, required, instant),
    ),
    ...(examination ? { examination } : {}),
    ...(isReady(draft, named.method)
      ? { readiness: { confirmedBy: named.person, at: draft.readyAt ?? named.now } }
      : {}),
    deviations: draft.deviations
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== ''),
  };
  return lacking.length > 0 ? { lacking } : { run };
}

/** Readiness is recorded only where every line of the list was confirmed. */
export function isReady({ ready }: Draft, { readiness }: Method): boolean {
  return readiness.length > 0 && readiness.every((_, index) => ready.includes(index));
}

type ReadQuantity = (what: string, text: string, unit: string) => Quantity;
type ReadInstant = (what: string, clock: string) => string;
type Required = (what: string, text: string) => string;

function conditionOf({ name, value, unit }: ConditionDraft, quantity: ReadQuantity, required: Required) {
  const called = required('The name of a condition', name);
  return [called, unit === '' ? required(`Condition “${called}”`, value) : quantity(called, value, unit)] as const;
}

function passageOf(
  { kind, title, startedAt, place, file, target, targetUnit, found }: PassageDraft,
  passage: number,
  quantity: ReadQuantity,
  required: Required,
  instant: ReadInstant,
): NonNullable<NewRun['passages']>[number] {
  const what = `Passage ${passage}`;
  return {
    passage,
    kind,
    title: required(`${what}, its title,`, title),
    startedAt: instant(what, startedAt),
    ...(place.trim() === '' ? {} : { place: place.trim() }),
    ...(file === '' ? {} : { file }),
    ...(target.trim() === '' ? {} : { target: quantity(`${what}, what was aimed at`, target, targetUnit) }),
    ...(found === '' ? {} : { found }),
  };
}

function measurementOf(
  { of, value, unit, instrument, givenBy, place, passage, at }: MeasurementDraft,
  row: number,
  person: string,
  quantity: ReadQuantity,
  required: Required,
  instant: ReadInstant,
): NewRun['measurements'][number] {
  const what = `Measurement ${row}`;
  return {
    of: required(`${what}, what was measured,`, of),
    quantity: quantity(what, value, unit),
    ...(place.trim() === '' ? {} : { place: place.trim() }),
    ...(passage === '' ? {} : { passage: Number(passage) }),
    instrument: required(`${what}, its instrument,`, instrument),
    ...(givenBy === '' ? {} : { givenBy }),
    person,
    at: instant(`${what}, when it was read`, at),
  };
}

/** Left out whole while nothing of it was said; the specimen may be examined later. */
function examinationOf(
  { endReason, modes, partSound, note }: Draft,
  { person, now }: Named,
  lacking: string[],
): NewRun['examination'] {
  const said = endReason !== undefined || partSound !== undefined || modes.length > 0 || note.trim() !== '';
  if (!said) return undefined;
  if (endReason === undefined || partSound === undefined) {
    if (endReason === undefined) lacking.push('Why the run ended is missing.');
    if (partSound === undefined)
      lacking.push('Whether the part was found sound is missing; say so where nobody looked.');
    return undefined;
  }
  return {
    endReason,
    modes: modes.map(({ code, place }) => ({ code, ...(place.trim() === '' ? {} : { place: place.trim() }) })),
    partSound,
    ...(note.trim() === '' ? {} : { note: note.trim() }),
    person,
    at: now,
  };
}
