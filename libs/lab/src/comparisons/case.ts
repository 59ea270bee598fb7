import { z } from 'zod';
import type { Result } from '../judgements.js';
import { Origin, Specimen } from '../lots.js';
import type { Validity } from '../outcomes.js';
import { Instant, Key, Paragraph } from '../text.js';
import { ConsentOrNotice, CustodyEvent } from './custody.js';
import { Comparison } from './declarations.js';
import { Observation } from './observations.js';
import { Reference } from './references.js';

/** Why an item cannot be compared at all: its custody, its condition, or what happened to it before. */
export const SetAside = z.strictObject({ specimen: Key, because: Paragraph, by: Key, at: Instant });
export type SetAside = z.infer<typeof SetAside>;

/** When conclusions were locked, and by whom. Before that, whoever is blinded is told of no item which it is. */
export const LockedConclusions = z.strictObject({ at: Instant, by: Key });
export type LockedConclusions = z.infer<typeof LockedConclusions>;

/** What a folder of a comparison holds in `comparison.json`; lot folders with the runs stand beside it in `lots/`. */
export const ComparisonDocument = z.strictObject({
  comparison: Comparison,
  /** What was declared before, oldest first. */
  earlier: z.array(Comparison).optional(),
  reference: Reference.optional(),
  alternative: Reference.optional(),
  custody: z.array(CustodyEvent),
  consents: z.array(ConsentOrNotice).optional(),
  observations: z.array(Observation),
  setAside: z.array(SetAside).optional(),
  locked: LockedConclusions.optional(),
});
export type ComparisonDocument = z.infer<typeof ComparisonDocument>;

/** A run as it enters a comparison: what it says of its specimen, after the examination, whatever any limit says. */
export interface ComparedRun {
  run: string;
  specimen: string;
  lot: string;
  rig?: string;
  method: string;
  methodRevision: number;
  startedAt: string;
  validity: Validity | 'not decided' | 'void';
  results: Result[];
}

export const ComparedSpecimen = z.strictObject({
  specimen: Key,
  lot: Key,
  serial: Specimen.shape.serial,
  origin: Origin,
});
export type ComparedSpecimen = z.infer<typeof ComparedSpecimen>;

/** All that a comparison rests on: from a folder or from the tables of the service, the same to the functions. */
export interface ComparisonCase extends ComparisonDocument {
  specimens: ComparedSpecimen[];
  runs: ComparedRun[];
}

/** What is compared: the items, or the specimens of the second group. */
export function itemsOf({
  comparison: { compared },
  specimens,
}: Pick<ComparisonCase, 'comparison' | 'specimens'>): string[] {
  return compared.what === 'items with a reference' ? compared.items : specimensIn(compared.second.lots, specimens);
}

/** What is known: units of the reference, or the specimens of the first group. */
export function knownOf({
  comparison: { compared },
  reference,
  specimens,
}: Pick<ComparisonCase, 'comparison' | 'reference' | 'specimens'>): string[] {
  if (compared.what === 'two groups') return specimensIn(compared.first.lots, specimens);
  return (reference?.units ?? []).map(({ specimen }) => specimen);
}

function specimensIn(lots: readonly string[], specimens: readonly ComparedSpecimen[]): string[] {
  return specimens.filter(({ lot }) => lots.includes(lot)).map(({ specimen }) => specimen);
}
