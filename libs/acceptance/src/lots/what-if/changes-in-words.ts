import { type LotBundle, limitName, type Plan } from '@breakbook/lab';
import { planInWords, rangeInWords } from '../../words/index.js';
import type { ChangedBundle, WhatIfChange } from './changed-bundle.js';

/** What is different from the lot's own plan and limits, each difference in words; none where nothing is. */
export function changesInWords(was: LotBundle, change: WhatIfChange, { limits }: ChangedBundle): string[] {
  return [
    ...(change.plan ? planChanges(was, change.plan) : []),
    ...limits.map(({ from, to }) => `limit ${limitName(from)}: ${rangeInWords(to)} in place of ${rangeInWords(from)}`),
  ];
}

function planChanges(was: LotBundle, { plan, standing, limits = [] }: NonNullable<WhatIfChange['plan']>): string[] {
  const before = said(was.plan, was.limits);
  const now = said(plan, [...was.limits, ...limits]);
  const differs = [...before].some((one) => !now.has(one)) || [...now].some((one) => !before.has(one));
  if (!differs && plan.plan === was.plan.plan && plan.revision === was.plan.revision) return [];
  return [
    `plan ${plan.plan} rev. ${plan.revision}${standing === undefined ? '' : ` (${standing})`} in place of ${was.plan.plan} rev. ${was.plan.revision}${differs ? '' : ', which asks for the same'}`,
    ...[...now].filter((one) => !before.has(one)).map((one) => `now ${one}`),
    ...[...before].filter((one) => !now.has(one)).map((one) => `no longer ${one}`),
  ];
}

/** Every sentence of a plan, with the part that it belongs to. */
function said(plan: Plan, limits: LotBundle['limits']): Set<string> {
  const { claim, lines } = planInWords(plan, limits);
  return new Set([
    ...claim.map((one) => `in the claim: ${one}`),
    ...lines.flatMap(({ line, says }) => says.map((one) => `in line ${line}: ${one}`)),
  ]);
}
