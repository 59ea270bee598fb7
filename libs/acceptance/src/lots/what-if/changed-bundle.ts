import {
  type ChangedLimit,
  type EarlierSample,
  type Limit,
  type LotBundle,
  limitName,
  type Method,
  type Plan,
  type Problem,
  Refusal,
} from '@breakbook/lab';
import { problemAt } from '../checks/records.js';

/** What is changed about a lot to see what would follow. */
export interface WhatIfChange {
  /** Another plan, with the limits and methods that it names and the lot's own records have not. */
  plan?: {
    plan: Plan;
    /** How it stands, where it is not in force, such as "only proposed". */
    standing?: string;
    limits?: readonly Limit[];
    methods?: readonly Method[];
    /** What earlier lots gave to its lines; left out, those of the lot's own records. */
    earlier?: readonly EarlierSample[];
  };
  /** Limits that the plan names, at other values. */
  limits?: readonly ChangedLimit[];
}

/** A lot's records under the change, and the limits that were changed, each as it is and as it is not. */
export interface ChangedBundle {
  bundle: LotBundle;
  limits: { from: Limit; to: Limit }[];
}

/** Ends the name of a limit that nobody declared, wherever it is printed. */
const SUFFIX = '-what-if';

/**
 * The records as they would be under the change. Plan and limits count as in force from the day on which the lot's own
 * plan was approved, since what is asked is what would have been; all else must fit as it must for any judgement.
 */
export function changedBundle(bundle: LotBundle, change: WhatIfChange): ChangedBundle {
  const plan = change.plan?.plan ?? bundle.plan;
  const since = bundle.plan.approvedOn;
  const named = new Set(plan.lines.flatMap((line) => line.limits.map(limitName)));
  const limits = joined(bundle.limits, change.plan?.limits ?? [], limitName).filter((one) => named.has(limitName(one)));
  const methods = joined(
    bundle.methods,
    change.plan?.methods ?? [],
    ({ method, revision }) => `${method} rev. ${revision}`,
  );
  const changed = changesOf(limits, change.limits ?? []);
  const now = new Map(changed.map(({ from, to }) => [limitName(from), to]));
  const ref = <Ref extends { limit: string; revision: number }>(one: Ref): Ref => {
    const limit = now.get(limitName(one));
    return limit ? { ...one, limit: limit.limit } : one;
  };
  return {
    limits: changed,
    bundle: {
      ...bundle,
      ...(change.plan?.earlier ? { earlier: [...change.plan.earlier] } : {}),
      methods,
      limits: limits
        .map((one) => now.get(limitName(one)) ?? one)
        .map((one) => (one.inForceFrom > since ? { ...one, inForceFrom: since } : one)),
      plan: {
        ...plan,
        approvedOn: since,
        lines: plan.lines.map((line) => ({
          ...line,
          limits: line.limits.map(ref),
          criteria: line.criteria.map((criterion) => ({ ...criterion, limit: ref(criterion.limit) })),
        })),
      },
    },
  };
}

function joined<T>(own: readonly T[], more: readonly T[], name: (one: T) => string): T[] {
  const known = new Set(own.map(name));
  return [...own, ...more.filter((one) => !known.has(name(one)))];
}

function changesOf(limits: readonly Limit[], changes: readonly ChangedLimit[]): ChangedBundle['limits'] {
  const problems: Problem[] = [];
  const changed = changes.flatMap((change, index) => {
    const at = `/limits/${index}`;
    const from = limits.find((one) => limitName(one) === limitName(change));
    const problem = from
      ? problemOf(change, from, at)
      : problemAt(
          'body.not-found',
          at,
          `the plan names no limit ${limitName(change)}. It names ${limits.map(limitName).join(', ')}.`,
          limitName(change),
        );
    if (problem || !from) {
      if (problem) problems.push(problem);
      return [];
    }
    return [{ from, to: changedLimit(from, change) }];
  });
  if (problems.length > 0) throw new Refusal(problems);
  return changed;
}

/** Is it the number that this kind of limit has, and another one? */
function problemOf({ value, lower, upper }: ChangedLimit, limit: Limit, at: string): Problem | undefined {
  const name = limitName(limit);
  const wrong = (pointer: string, sentence: string) => problemAt('body.range', pointer, sentence, name);
  if (limit.bound === 'absent')
    return wrong(at, `${name} asks that signs are absent, and has no number to change. Change another limit.`);
  if (limit.bound === 'between') {
    if (value !== undefined || (lower === undefined && upper === undefined))
      return wrong(at, `${name} lies between two numbers. Give \`lower\`, \`upper\` or both, in ${limit.unit}.`);
    if ((lower ?? limit.lower) > (upper ?? limit.upper))
      return wrong(at, `${name} would have its lower number above its upper one. Nothing could conform to it.`);
    if ((lower ?? limit.lower) === limit.lower && (upper ?? limit.upper) === limit.upper)
      return wrong(at, `${name} would stay as it is. Give another number.`);
    return undefined;
  }
  if (value === undefined || lower !== undefined || upper !== undefined)
    return wrong(at, `${name} has one number. Give it as \`value\`, in ${limit.unit}.`);
  if (value === limit.value)
    return wrong(`${at}/value`, `${name} is ${value} ${limit.unit} as it is. Give another number.`);
  return undefined;
}

function changedLimit(limit: Limit, { value, lower, upper }: ChangedLimit): Limit {
  const told = {
    limit: `${limit.limit.slice(0, 40 - SUFFIX.length)}${SUFFIX}`,
    title: `${limit.title.slice(0, 280)} (what-if)`,
    source: `No source: a what-if in place of ${limitName(limit)}`,
    edition: 'what-if',
  };
  if (limit.bound === 'between') return { ...limit, ...told, lower: lower ?? limit.lower, upper: upper ?? limit.upper };
  return limit.bound === 'absent' ? limit : { ...limit, ...told, value: value ?? limit.value };
}
