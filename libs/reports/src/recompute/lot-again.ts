import { evaluateLot, judgedFromReadings } from '@breakbook/acceptance';
import { type RunJudgement, withoutSoftware } from '@breakbook/lab';
import type { LotReportContent } from '../content/lot-report-content.js';
import type { CertificateContent } from '../documents/certificate-of-test/content.js';
import { type FilesOfRuns, filesRead, type LaidBeside } from './laid-beside.js';
import { methodsOf } from './methods-of.js';

/** A lot's readings, judgements and result, each run read again where all files are at hand. */
export function lotAgain(content: LotReportContent | CertificateContent, files: FilesOfRuns): LaidBeside {
  const { readings, refused, judgements, lot } = content;
  return {
    kept: {
      lot: withoutSoftware(lot),
      runs: byRun(judgements),
      readings: Object.fromEntries(readings.map((one) => [one.run, withoutSoftware(one)])),
      refused,
    },
    now: filesRead(files) ? fromFiles(content, files) : fromReadings(content),
    since: { software: lot.software, methods: methodsOf(readings) },
  };
}

interface Recomputed {
  lot: object;
  runs: Record<string, RunJudgement>;
  readings: Record<string, object>;
  refused: LotReportContent['refused'];
}

function fromReadings({ bundle, readings, refused }: LotReportContent | CertificateContent): Recomputed {
  const kept = new Map(readings.map((one) => [one.run, one]));
  const { result, judgements } = judgedFromReadings(bundle, {
    readings: kept,
    refused: new Map(refused.map(({ run, problems }) => [run, problems])),
  });
  return {
    lot: withoutSoftware(result),
    runs: byRun(judgements),
    readings: Object.fromEntries(readings.map((one) => [one.run, withoutSoftware(one)])),
    refused,
  };
}

function fromFiles({ bundle }: LotReportContent | CertificateContent, files: FilesOfRuns): Recomputed {
  const { result, runs, refused } = evaluateLot(bundle, (run) => files.get(run) ?? []);
  return {
    lot: withoutSoftware(result),
    runs: byRun(runs.map(({ judgement }) => judgement)),
    readings: Object.fromEntries(runs.map(({ reading }) => [reading.run, withoutSoftware(reading)])),
    refused: refused.map(({ run, unread }) => ({ run: run.run, problems: unread })),
  };
}

function byRun(judgements: readonly RunJudgement[]): Record<string, RunJudgement> {
  return Object.fromEntries(judgements.map((one) => [one.run, one]));
}
