import { attemptsOf, type LotEvaluation, planRisks } from '@breakbook/acceptance';
import type { LotAttempts, LotBundle, PlanRisks, PrintChoice, Problem, Reading } from '@breakbook/lab';
import { lowestRunOf } from '../figures/lowest-run.js';
import type { ReportAffairs } from './affairs.js';
import { type JudgedLot, linesOf } from './judged-lot.js';
import { traceOfRun } from './report-trace.js';

/** Which document this is, and who stands behind it. */
export interface ReportIdentity {
  /** Short number, unique in the lab and never used again. Letters, digits, dots, dashes. */
  number: string;
  revision: number;
  /** Instant of issue; every date inside the file is this one. */
  issuedAt: string;
  /** What it replaces, what changed, and why. */
  replaces?: { number: string; revision: number; changed: string; because: string };
  /** Who has signed, and for what. A report without an authoriser is an unsigned draft. */
  signatures: ReportSignature[];
}

export interface ReportSignature {
  meaning: 'prepared' | 'reviewed' | 'authorised';
  name: string;
  role: string;
  at: string;
}

/** A record thinned for its figure. */
export interface ReportTrace {
  line: string;
  run: string;
  /** Which of several passages was recorded; left out where the record covers the whole run. */
  passage?: number;
  channels: { channel: string; unit: string; reference?: 'gauge' | 'absolute'; time: number[]; values: number[] }[];
}

/**
 * Everything a lot test report says, as data. It is attached to the document in canonical JSON, so that each number can
 * be computed again from the file alone; raw run files are named by their digests.
 */
export interface LotReportContent extends JudgedLot {
  document: 'lot test report';
  form: 1;
  identity: ReportIdentity;
  readings: Reading[];
  /** Runs whose files were refused and are kept unread. */
  refused: { run: string; problems: Problem[] }[];
  traces: ReportTrace[];
  /** How often was tried; reports made before it was counted have none. */
  attempts?: LotAttempts;
  /** What the plan risked; reports made before it was weighed have none. */
  risks?: PlanRisks;
  /** How it is printed; English, in the units kept, where nothing was chosen. */
  print?: PrintChoice;
  /** What else is on record about the lot; left out where it was judged from a folder. */
  affairs?: ReportAffairs;
}

/** The content of a lot test report, from a lot and its evaluation. */
export function lotReportContent({
  bundle,
  evaluation,
  document,
  affairs,
  print,
}: {
  bundle: LotBundle;
  evaluation: LotEvaluation;
  document: ReportIdentity;
  affairs?: ReportAffairs | undefined;
  print?: PrintChoice | undefined;
}): LotReportContent {
  if (evaluation.result.whatIf)
    throw new Error(`A what-if of lot ${bundle.lot.lot} was handed over: no report says what was not judged.`);
  const judged: JudgedLot = {
    bundle,
    lot: evaluation.result,
    judgements: evaluation.runs.map(({ judgement }) => judgement),
  };
  return {
    document: 'lot test report',
    form: 1,
    identity: document,
    ...judged,
    readings: evaluation.runs.map(({ reading }) => reading),
    refused: evaluation.refused.map(({ run, unread }) => ({ run: run.run, problems: unread })),
    traces: linesOf(judged).flatMap((line) => {
      const lowest = lowestRunOf(judged, line);
      const traces = evaluation.runs.find(({ run }) => run.run === lowest)?.traces ?? [];
      return lowest === undefined ? [] : (traceOfRun(line.line.line, lowest, traces) ?? []);
    }),
    attempts: attemptsOf(evaluation.result, bundle.runs, judged.judgements),
    risks: planRisks({ ...bundle, lotSize: bundle.lot.size }),
    ...(affairs ? { affairs } : {}),
    ...(print ? { print } : {}),
  };
}
