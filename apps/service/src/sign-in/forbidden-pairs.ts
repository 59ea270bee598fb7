import { type Duty, Refusal } from '@breakbook/lab';
import type { SignedInActor } from './signed-in.decorator.js';

/** What people do to a thing, where who did one may not do the other. */
export type Act = keyof typeof WORDS;

/** How each act is told: what somebody did, and what they would do now. */
const WORDS = {
  record: { did: 'recorded', to: 'record' },
  review: { did: 'reviewed', to: 'review' },
  decide: { did: 'decided on', to: 'decide on' },
  'propose a limit': { did: 'proposed', to: 'propose' },
  'approve a limit': { did: 'approved', to: 'approve' },
  build: { did: 'built', to: 'build' },
  draw: { did: 'drew', to: 'draw' },
  'change a calibration': { did: 'changed', to: 'change' },
  'request a concession': { did: 'asked for', to: 'ask for' },
  'grant a concession': { did: 'granted', to: 'grant' },
  'issue a document': { did: 'issued', to: 'issue' },
  'write a nonconformity': { did: 'wrote in', to: 'write in' },
  'close a nonconformity': { did: 'closed', to: 'close' },
  countersign: { did: 'countersigned', to: 'countersign' },
  'place a legal hold': { did: 'placed', to: 'place' },
  'lift a legal hold': { did: 'lifted', to: 'lift' },
  'ask for a disposal': { did: 'asked for', to: 'ask for' },
  'authorise a disposal': { did: 'authorised', to: 'authorise' },
  'write a safety flag': { did: 'wrote in', to: 'write in' },
  'close a safety flag': { did: 'closed', to: 'close' },
  'give an opinion': { did: 'gave an opinion on', to: 'give an opinion on' },
  'authorise a retest': { did: 'authorised a retest of', to: 'authorise a retest of' },
  'declare a comparison': { did: 'declared', to: 'declare' },
  'approve a comparison': { did: 'approved', to: 'approve' },
  'lock conclusions': { did: 'locked the conclusions of', to: 'lock the conclusions of' },
} as const;

/**
 * Two acts on one thing that one person never does both of, in either order: a second pair of eyes is only one when it
 * belongs to somebody else. A run is released by its review.
 */
export const FORBIDDEN_PAIRS: readonly (readonly [Act, Act])[] = [
  ['record', 'review'],
  ['record', 'decide'],
  ['review', 'decide'],
  ['propose a limit', 'approve a limit'],
  ['build', 'draw'],
  ['change a calibration', 'review'],
  ['request a concession', 'grant a concession'],
  ['write a nonconformity', 'close a nonconformity'],
  ['decide', 'countersign'],
  ['record', 'countersign'],
  ['review', 'countersign'],
  ['record', 'authorise a retest'],
  ['place a legal hold', 'lift a legal hold'],
  ['ask for a disposal', 'authorise a disposal'],
  ['write a safety flag', 'close a safety flag'],
  ['declare a comparison', 'approve a comparison'],
  ['declare a comparison', 'lock conclusions'],
  ['record', 'lock conclusions'],
];

/** Acts by which somebody answers for a result. Whoever can give and take duties does none of them. */
export const TECHNICAL_SIGNATURES: readonly Act[] = [
  'review',
  'decide',
  'approve a limit',
  'grant a concession',
  'issue a document',
  'close a nonconformity',
  'countersign',
  'authorise a retest',
  'give an opinion',
  'lift a legal hold',
  'authorise a disposal',
  'close a safety flag',
  'approve a comparison',
  'lock conclusions',
];

/** Duties that open only technical signatures, and so never go together with `administer`. */
export const SIGNING_DUTIES: readonly Duty[] = ['review', 'decide', 'issue'];

/** What somebody has done to the thing already, or to what it rests on. */
export interface Done {
  act: Act;
  personId: string;
  /** Such as "run 88". */
  thing: string;
}

/**
 * Refuses an act to whoever has done its other side before. `thing` is what the act is about, such as "lot P-2031-04";
 * `done` is everything of the table's other sides that was done to it and to what it rests on, by whomever.
 */
export function requireOther(by: SignedInActor, act: Act, thing: string, done: readonly Done[]): void {
  const { to } = WORDS[act];
  if (TECHNICAL_SIGNATURES.includes(act) && by.duties.includes('administer'))
    throw new Refusal({
      code: 'duty.conflict',
      detail: `You give and take the duties of this lab, so you cannot ${to} ${thing} yourself.`,
      action: 'Have somebody do it who does not administer the lab.',
    });
  const before = done.find((one) => one.personId === by.personId && isForbiddenPair(one.act, act));
  if (!before) return;
  throw new Refusal({
    code: 'duty.conflict',
    detail: `You ${WORDS[before.act].did} ${before.thing}, so you cannot ${to} ${before.thing === thing ? 'it' : thing}.`,
    action: 'Have another person with the duty do it.',
  });
}

export function isForbiddenPair(one: Act, other: Act): boolean {
  return FORBIDDEN_PAIRS.some(([a, b]) => (a === one && b === other) || (a === other && b === one));
}
