import { z } from 'zod';
import type { Origin } from './lots.js';
import { Day, Instant, Key, Line, Paragraph } from './text.js';

/** What is proposed for how long something is kept, and why. A proposal binds nobody until a person has said a day. */
export interface KeepingRule {
  /** What it is about, in words. */
  of: string;
  years: number;
  /** The day the years are counted from, in words. */
  from: string;
  why: string;
}

/** No standard names these numbers: the lab asks a lawyer before it relies on one. */
export const KEEPING_CAUTION =
  'Proposals only: how long is enough is for contracts and local law to say, and a lawyer must confirm it. When more of the design is shipped later, the day moves with it.';

/**
 * Proposals, as data. ISO/IEC 17025:2017, 8.4.2 asks that records are kept as contracts ask and names no number;
 * Regulation (EU) 2023/988 keeps technical documentation 10 years after a product was placed on the market, Directive
 * (EU) 2024/2853 ends liability after 10 years, 25 for injuries that show late (all three from memory). Years for broken
 * parts are common practice, no source.
 */
export const KEEPING_RULES = {
  records: {
    of: 'records: raw files, results, reports, calibrations, photos',
    years: 12,
    from: 'the last shipment of the design',
    why: 'ten years of product liability and of technical documentation, and two for what is reported late',
  },
  broken: {
    of: 'remnants of a specimen that did not conform',
    years: 2,
    from: 'the end of testing',
    why: 'a failure is asked about again, by the maker or by an expert',
  },
  remnants: {
    of: 'other remnants, and specimens kept whole',
    years: 1,
    from: 'the end of testing',
    why: 'a dispute about a delivery is raised within its first season',
  },
  suspect: {
    of: 'field returns and suspect specimens',
    years: 12,
    from: 'the end of testing',
    why: 'they may be evidence: they are kept as long as the records, or until counsel releases them',
  },
} as const satisfies Record<string, KeepingRule>;

/** What is said of how long something of a lot is kept: each day is the last on which it must be there. */
export const LotKeeping = z.strictObject({ recordsUntil: Day, remnantsUntil: Day, note: Paragraph });
export type LotKeeping = z.infer<typeof LotKeeping>;

export const SpecimenKeeping = z.strictObject({ until: Day, note: Paragraph });
export type SpecimenKeeping = z.infer<typeof SpecimenKeeping>;

/** The days that the rules propose for a lot whose testing ended on this day, and by which of them. */
export function proposedKeeping(given: {
  /** The last day of making or testing that is on record. */
  from: string;
  origins: readonly Origin[];
  failed: boolean;
}): { recordsUntil: string; remnantsUntil: string; rules: KeepingRule[] } {
  const { records, broken, remnants, suspect } = KEEPING_RULES;
  const ofRemnants = given.origins.some((origin) => origin === 'suspect' || origin === 'field return')
    ? suspect
    : given.failed
      ? broken
      : remnants;
  return {
    recordsUntil: yearsAfter(given.from, records.years),
    remnantsUntil: yearsAfter(given.from, ofRemnants.years),
    rules: [records, ofRemnants],
  };
}

/** The same day so many years later; the last of February where that year has no 29th. */
export function yearsAfter(day: string, years: number): string {
  const year = `${Number(day.slice(0, 4)) + years}`.padStart(4, '0');
  const same = `${year}${day.slice(4)}`;
  return Day.safeParse(same).success ? same : `${year}-02-28`;
}

/** What keeps remnants from being disposed of, and what to do about it. */
export const DisposalObstacle = z.strictObject({
  kind: z.enum(['legal hold', 'keep-until', 'nonconformity', 'safety flag', 'undecided']),
  what: z.string(),
  action: z.string(),
});
export type DisposalObstacle = z.infer<typeof DisposalObstacle>;

/** Specimens whose remnants somebody wants to be rid of. */
export const NewDisposal = z.strictObject({
  specimens: z.array(Key).min(1).max(500),
  reason: Paragraph,
  /** How it is to be done, such as "cut in four and given to the metal merchant". */
  how: Paragraph,
  /** Why it should be done before the day until which they are kept, where it is to be. */
  exception: Paragraph.optional(),
});
export type NewDisposal = z.infer<typeof NewDisposal>;

/** How, where, when and by whom it was done. */
export const DisposalDone = z.strictObject({ how: Paragraph, place: Line, at: Instant, by: Line });
export type DisposalDone = z.infer<typeof DisposalDone>;

export const DisposalState = z.enum(['asked for', 'authorised', 'refused', 'withdrawn', 'carried out']);
export type DisposalState = z.infer<typeof DisposalState>;

/** A legal hold: what it covers is neither run nor disposed of until another person lifts it. */
export const NewLegalHold = z
  .strictObject({
    /** Such as the file number of counsel. */
    reference: Line,
    reason: Paragraph,
    lots: z.array(Key).max(100),
    specimens: z.array(Key).max(500),
  })
  .refine(({ lots, specimens }) => lots.length + specimens.length > 0, {
    error: 'covers nothing; name a lot or a specimen',
    path: ['lots'],
    params: { code: 'body.missing-field' },
  });
export type NewLegalHold = z.infer<typeof NewLegalHold>;
