import type { ClaimEntry, LotBundle, PrintChoice, Problem, Reading, RunJudgement } from '@breakbook/lab';
import type { EvaluatedRuns } from '../../content/evaluated-runs.js';
import type { DocumentIdentity } from '../../content/identity.js';
import type { ReportTrace } from '../../content/lot-report-content.js';
import { recordsOfRuns } from '../../content/records-of-runs.js';
import { traceOfRun } from '../../content/report-trace.js';

/** What a run sheet says, as data: one run with the records that it was made under, and what was judged of it. */
export interface RunSheetContent {
  document: 'run sheet';
  form: 1;
  identity: DocumentIdentity;
  /** Of the lot's records those that bear on this run; its only run is it. */
  bundle: LotBundle;
  software: string;
  /** Left out where the run's file was refused. */
  reading?: Reading;
  judgement?: RunJudgement;
  /** Where it stands in the claim of its plan line. */
  entry?: ClaimEntry;
  /** What was wrong with its files, where they were refused and are kept unread. */
  refused: Problem[];
  trace?: ReportTrace;
  /** The lot test report that tells the lot, where there is one. */
  report?: { number: string; revision: number };
  /** How it is printed; in English and in the units kept where nothing is said. */
  print?: PrintChoice;
}

/** The content of a run sheet, from a lot and what its run was evaluated to. */
export function runSheetContent({
  bundle,
  evaluation,
  run: key,
  document,
  report,
  print,
}: {
  bundle: LotBundle;
  evaluation: EvaluatedRuns;
  run: string;
  document: DocumentIdentity;
  report?: { number: string; revision: number } | undefined;
  print?: PrintChoice | undefined;
}): RunSheetContent {
  const run = bundle.runs.find((one) => one.run === key);
  if (!run) throw new Error(`Lot ${bundle.lot.lot} has no run ${key}.`);
  const evaluated = evaluation.runs.find((one) => one.run.run === key);
  const entry = evaluation.result.lines.flatMap(({ entries }) => entries).find((one) => one.run === key);
  const trace = evaluated && traceOfRun(run.planLine, key, evaluated.traces);
  return {
    document: 'run sheet',
    form: 1,
    identity: document,
    bundle: recordsOfRuns(bundle, [key], evaluated ? [evaluated.reading] : []),
    software: evaluation.result.software,
    ...(evaluated ? { reading: evaluated.reading, judgement: evaluated.judgement } : {}),
    ...(entry ? { entry } : {}),
    refused: evaluation.refused.find((one) => one.run.run === key)?.unread ?? [],
    ...(trace ? { trace } : {}),
    ...(report ? { report: { number: report.number, revision: report.revision } } : {}),
    ...(print ? { print } : {}),
  };
}
