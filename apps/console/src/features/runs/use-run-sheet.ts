import type { Lab, Method, Person, Plan, PlanLine } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import type { LotAnswer, RigRecord, RunAnswer, RunRecord } from '../../client/answers.js';
import {
  labQuery,
  lotQuery,
  methodQuery,
  peopleQuery,
  planQuery,
  rigQuery,
  runQuery,
  runRecordQuery,
} from '../../client/queries.js';

/** A run with the records that explain it. */
export interface RunOnSheet {
  answer: RunAnswer;
  record: RunRecord;
  around: RunSurroundings;
}

/** What a run is read against. No limit is among it: none reaches the browser before validity is decided. */
export interface RunSurroundings {
  lot: string;
  lab: Lab;
  people: readonly Person[];
  plan: Plan;
  line: PlanLine | undefined;
  method: Method;
  rig: RigRecord['content'] | undefined;
  /** Where it stands in the last evaluation of its lot; looked up only for a run that is decided. */
  entry: LotAnswer['lot']['lines'][number]['entries'][number] | undefined;
}

/** Gathers a run's sheet from its own records, so that a lot that was never evaluated can be worked on. */
export function useRunSheet(lot: string, run: string) {
  const ofRun = useQuery(runQuery(lot, run));
  const ofRecord = useQuery(runRecordQuery(run));
  const made = ofRecord.data?.run;
  const known = made !== undefined;
  const lab = useQuery(labQuery);
  const people = useQuery(peopleQuery);
  const { plan: planKey = '', revision = 0 } = ofRecord.data?.plan ?? {};
  const plan = useQuery({ ...planQuery(planKey, revision), enabled: known });
  const method = useQuery({ ...methodQuery(made?.method ?? '', made?.methodRevision ?? 0), enabled: known });
  const rig = useQuery({ ...rigQuery(made?.rig ?? ''), enabled: made?.rig !== undefined });
  const judged = useQuery({ ...lotQuery(lot), enabled: made?.validity !== undefined, retry: false });

  const needed = [ofRun, ofRecord, lab, people, plan, method, ...(made?.rig === undefined ? [] : [rig])];
  const error = needed.find((one) => one.error !== null)?.error ?? null;
  const again = () => {
    for (const one of needed) void one.refetch();
  };
  if (!ofRun.data || !ofRecord.data || !lab.data || !people.data || !plan.data || !method.data)
    return { sheet: undefined, error, again };
  if (made?.rig !== undefined && !rig.data) return { sheet: undefined, error, again };

  const around: RunSurroundings = {
    lot,
    lab: lab.data,
    people: people.data,
    plan: plan.data.content,
    line: plan.data.content.lines.find(({ line }) => line === made?.planLine),
    method: method.data.content,
    rig: rig.data?.content,
    entry: judged.data?.lot.lines.flatMap(({ entries }) => entries).find((one) => one.run === run),
  };
  const sheet: RunOnSheet = { answer: ofRun.data, record: ofRecord.data, around };
  return { sheet, error, again };
}
