import type { Duty, Person } from '@breakbook/lab';
import type { LotAnswer } from '../../client/answers.js';

/** What happens next with a lot, and whose turn it is. */
export interface NextStep {
  what: string;
  /** Who may do it; empty where nobody in the lab may. */
  who: Person[];
}

/**
 * What stands between this lot and a decision? First the files nobody could read, then the validity of runs, then the
 * runs still planned; when nothing does, the lot is ready for whoever decides and has neither recorded nor reviewed it.
 */
export function whatNext({ bundle, lot, refusals }: LotAnswer): NextStep {
  const { people, runs } = bundle;
  const having = (duty: Duty, without: ReadonlySet<string> = new Set()) =>
    people.filter((one) => one.duties.includes(duty) && !without.has(one.person));

  if (refusals.length > 0)
    return {
      what: `the refused ${plural(refusals.length, 'file', 'files')} of ${plural(refusals.length, 'run', 'runs')} ${listed(refusals.map(({ run }) => run))} can be read again after the layout or the specimen is put right.`,
      who: having('record'),
    };

  const open = runs.filter(({ validity }) => validity === undefined);
  if (open.length > 0)
    return {
      what: `the validity of ${plural(open.length, 'run', 'runs')} ${listed(open.map(({ run }) => run))} is to be decided by someone who did not record ${plural(open.length, 'it', 'them')}.`,
      who: having('review', new Set(open.map(({ operator }) => operator))),
    };

  const missing = lot.lines
    .map(({ line, planned, counts }) => ({ line, left: planned - counts.inClaim }))
    .filter(({ left }) => left > 0);
  if (missing.length > 0)
    return {
      what: `${missing.map(({ line, left }) => `${left} more valid ${plural(left, 'run', 'runs')} on plan line ${line}`).join(', ')}, on specimens drawn at random.`,
      who: having('record'),
    };

  const involved = new Set(
    runs.flatMap(({ operator, validity }) => (validity ? [operator, validity.person] : [operator])),
  );
  return {
    what: 'the report goes to whoever decides about the lot and has neither recorded nor reviewed its runs.',
    who: having('decide', involved),
  };
}

function plural(n: number, one: string, many: string): string {
  return n === 1 ? one : many;
}

function listed(words: readonly string[]): string {
  const shown = words.slice(0, 6);
  const rest = words.length - shown.length;
  if (rest > 0) return `${shown.join(', ')} and ${rest} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}
