import { type Method, type Person, type Plan } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { type LotRecord, type RigRecord, type SpecimenRecord } from '../../../client/answers.js';
import {
  labQuery,
  layoutsQuery,
  lotRecordQuery,
  methodQuery,
  peopleQuery,
  plansQuery,
  rigQuery,
  runsOfQuery,
  specimenQuery,
} from '../../../client/queries.js';
import { type Draft } from './draft.js';

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
  const specimen = useQuery({ ...specimenQuery(draft.specimen), enabled: draft.specimen !== '', retry: false });
  const runs = useQuery({ ...runsOfQuery('specimen', draft.specimen), enabled: specimen.data !== undefined });
  const lotKey = specimen.data?.content.lot ?? '';
  const lot = useQuery({ ...lotRecordQuery(lotKey), enabled: lotKey !== '' });
  const product = lot.data?.content.product ?? '';
  const plans = useQuery({ ...plansQuery(product), enabled: product !== '' });
  const choices = (plans.data ?? []).flatMap(({ content: plan }) =>
    plan.lines.map((line): LineChoice => ({ value: `${plan.plan} ${plan.revision} ${line.line}`, plan, line })),
  );
  const choice = choices.find(({ value }) => value === draft.line) ?? (choices.length === 1 ? choices[0] : undefined);
  const { method: methodKey = '', methodRevision = 0 } = choice?.line ?? {};
  const method = useQuery({ ...methodQuery(methodKey, methodRevision), enabled: choice !== undefined });
  const rig = useQuery({ ...rigQuery(draft.rig), enabled: draft.rig !== '', retry: false });
  const layouts = useQuery({ ...layoutsQuery, enabled: rig.data !== undefined });
  const layout = (layouts.data ?? []).find(({ content }) => content.rig === rig.data?.key);
  const looking = [lab, people, specimen, runs, lot, plans, method, rig, layouts].some((one) => one.isLoading);
  return {
    looking,
    zone: lab.data?.zone ?? 'UTC',
    people: people.data ?? [],
    specimen: specimen.data,
    specimenError: specimen.error,
    lot: lot.data,
    choices,
    choice,
    method: method.data?.content,
    rig: rig.data,
    rigError: rig.error,
    layoutRevision: layout?.content.revision,
    number: specimen.data ? `${specimen.data.key}-${(runs.data?.length ?? 0) + 1}` : '',
  };
}
