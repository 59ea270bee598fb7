import type { Layout, Method, Person, Plan } from '@breakbook/lab';
import { useQueries, useQuery } from '@tanstack/react-query';
import type { LotRecord, RigRecord, RunInList, SpecimenRecord } from '../../../client/answers.js';
import {
  labQuery,
  layoutsInForceQuery,
  lotRecordQuery,
  methodQuery,
  peopleQuery,
  planQuery,
  plansQuery,
  rigQuery,
  runsOfQuery,
  specimensCalledQuery,
} from '../../../client/queries.js';
import type { Draft } from './draft.js';

/** A plan line that a run can be made under. */
export interface LineChoice {
  value: string;
  plan: Plan;
  line: Plan['lines'][number];
}

/** What the codes and choices of a draft name, as far as they are known. */
export interface FoundNames {
  zone: string;
  people: readonly Person[];
  specimen: SpecimenRecord | undefined;
  specimenError: Error | null;
  lot: LotRecord | undefined;
  choices: readonly LineChoice[];
  /** Lines left out of the choices, because the rig does not record what their methods ask for. */
  unfit: readonly LineChoice[];
  choice: LineChoice | undefined;
  method: Method | undefined;
  rig: RigRecord | undefined;
  rigError: Error | null;
  layoutRevision: number | undefined;
  /** A number for the run that no other has. */
  number: string;
  /** Something is still being looked up. */
  looking: boolean;
}

/** Looks up what a draft names: each thing leads to the next, from the specimen to its lot, plan and method. */
export function useNamed(draft: Draft): FoundNames {
  const lab = useQuery(labQuery);
  const people = useQuery(peopleQuery);
  const called = useQuery({ ...specimensCalledQuery(draft.specimen), enabled: draft.specimen !== '', retry: false });
  const specimen = called.data?.length === 1 ? called.data[0] : undefined;
  const runs = useQuery({ ...runsOfQuery('specimen', specimen?.key ?? ''), enabled: specimen !== undefined });
  const lotKey = specimen?.content.lot ?? '';
  const lot = useQuery({ ...lotRecordQuery(lotKey), enabled: lotKey !== '' });
  const product = lot.data?.content.product ?? '';
  const lotRuns = useQuery({ ...runsOfQuery('lot', lotKey), enabled: lotKey !== '' });
  const latest = useQuery({ ...plansQuery(product), enabled: product !== '' && lotRuns.data?.length === 0 });
  // A lot is judged under one plan: once it has a run, no other is offered.
  const begun = useQueries({ queries: plansOf(lotRuns.data ?? []).map((one) => planQuery(one.plan, one.revision)) });
  const plans = [...begun.flatMap(({ data }) => data ?? []), ...(latest.data ?? [])];
  const lines = plans.flatMap(({ content: plan }) =>
    plan.lines.map((line): LineChoice => ({ value: `${plan.plan} ${plan.revision} ${line.line}`, plan, line })),
  );
  const methods = useQueries({ queries: lines.map(({ line }) => methodQuery(line.method, line.methodRevision)) });
  const rig = useQuery({ ...rigQuery(draft.rig), enabled: draft.rig !== '', retry: false });
  const layouts = useQuery({ ...layoutsInForceQuery, enabled: rig.data !== undefined });
  const layout = (layouts.data ?? []).find(({ content }) => content.rig === rig.data?.key)?.content;
  const unfit = lines.filter((_, index) => isUnfit(layout, methods[index]?.data?.content));
  const choices = lines.filter((one) => !unfit.includes(one));
  const choice = choices.find(({ value }) => value === draft.line) ?? (choices.length === 1 ? choices[0] : undefined);
  const { method: methodKey = '', methodRevision = 0 } = choice?.line ?? {};
  const method = useQuery({ ...methodQuery(methodKey, methodRevision), enabled: choice !== undefined });
  const looking = [lab, people, called, runs, lot, lotRuns, latest, ...begun, ...methods, method, rig, layouts].some(
    (one) => one.isLoading,
  );
  return {
    looking,
    zone: lab.data?.zone ?? 'UTC',
    people: people.data ?? [],
    specimen,
    specimenError: called.error ?? notOne(draft.specimen, called.data),
    lot: lot.data,
    choices,
    unfit,
    choice,
    method: method.data?.content,
    rig: rig.data,
    rigError: rig.error,
    layoutRevision: layout?.revision,
    number: specimen ? `${specimen.key}-${(runs.data?.length ?? 0) + 1}` : '',
  };
}

/** Each plan revision that runs were made under, once. */
function plansOf(runs: readonly RunInList[]): RunInList['plan'][] {
  return [...new Map(runs.map(({ plan }) => [`${plan.plan} ${plan.revision}`, plan])).values()];
}

/** Does the rig write files that lack a channel the method asks for? */
function isUnfit(layout: Layout | undefined, method: Method | undefined): boolean {
  if (!layout || !method) return false;
  const written = new Set(layout.columns.map(({ channel }) => channel));
  return method.channels.some(({ channel, required }) => required && !written.has(channel));
}

/** Why a text names no one specimen; null where it does, or where nobody knows yet. */
function notOne(text: string, found: readonly SpecimenRecord[] | undefined): Error | null {
  if (!found || found.length === 1) return null;
  return new Error(
    found.length === 0
      ? `No specimen has the code or serial “${text}”. Look at its label, or have it received first.`
      : `${found.length} specimens carry the serial “${text}”: type the code of one, ${found.map(({ key }) => key).join(' or ')}.`,
  );
}
