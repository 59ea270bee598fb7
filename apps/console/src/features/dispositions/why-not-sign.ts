import type { Myself, SheetToSign } from '../../client/answers.js';

/** Why whoever looks cannot decide about this lot; undefined where they can, as far as the page knows. */
export function whyNotSign(me: Pick<Myself, 'person' | 'duties'>, sheet: SheetToSign['sheet']): string | undefined {
  if (sheet.missing.length > 0) return 'The signature opens once nothing is missing.';
  if (!me.duties.includes('decide')) return 'Whoever has the duty to decide signs here.';
  if (me.duties.includes('administer'))
    return 'You give and take the duties of this lab, so you decide about no lot of it.';
  if (sheet.runs.some(({ operator }) => operator === me.person))
    return 'You recorded a run of this lot, so somebody else decides about it.';
  if (sheet.runs.some(({ decidedBy, reviewedBy }) => decidedBy === me.person || reviewedBy === me.person))
    return 'You decided on the validity of a run of this lot or reviewed it, so somebody else decides about it.';
  const waiting = sheet.dispositions.find(({ state }) => state === 'waits for a second decider');
  if (waiting?.signatures.some(({ person }) => person === me.person))
    return 'You signed it as first decider; it waits for a second one.';
  return undefined;
}
