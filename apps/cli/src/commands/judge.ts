import fs from 'node:fs';
import path from 'node:path';
import { evaluateLot, type LotEvaluation } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import { EXIT, type LotBundle, type PrintChoice, printKept } from '@breakbook/lab';
import { composeDocument, lotReportContent } from '@breakbook/reports';
import { openLotFolder } from '../lot-folder.js';
import { lotSheet } from '../lot-sheet.js';
import { STATUS } from '../lot-status.js';
import { type PrintOptions, printFrom } from '../print-options.js';
import { Progress } from '../terminal.js';
import { type WhatIfOptions, whatIfCommand } from './what-if.js';

export interface JudgeOptions extends WhatIfOptions, PrintOptions {
  out: string;
}

/** A lot folder in; verdicts on the terminal, report and result in the out folder. No server, no database. */
export async function judgeCommand(folder: string, options: JudgeOptions): Promise<number> {
  const print = printFrom(options);
  if (options.whatIfPlan !== undefined || options.whatIfLimit !== undefined) return whatIfCommand(folder, options);
  const { bundle, filesOf } = openLotFolder(folder);
  const progress = new Progress('reading runs');
  const evaluation = evaluateLot(bundle, filesOf, ({ done, of, share }) => progress.report(done + share, of));
  progress.end();

  console.log(lotSheet(bundle, { ...evaluation, judgements: evaluation.runs.map(({ judgement }) => judgement) }));
  const written = await writeOut(bundle, evaluation, options.out, print);
  console.log(`\nReport  ${written.report}\nResult  ${written.result}`);
  return evaluation.refused.length > 0 ? EXIT.badInput : STATUS[evaluation.result.outcome];
}

async function writeOut(bundle: LotBundle, evaluation: LotEvaluation, out: string, print: PrintChoice) {
  const folder = path.join(out, bundle.lot.lot);
  fs.mkdirSync(folder, { recursive: true });
  const content = lotReportContent({
    bundle,
    evaluation,
    document: { number: `${bundle.lot.lot}-draft`, revision: 1, issuedAt: new Date().toISOString(), signatures: [] },
    print: printKept(print),
  });
  const report = path.join(folder, 'lot-test-report.pdf');
  const result = path.join(folder, 'result.json');
  fs.writeFileSync(report, await composeDocument('lot test report', content));
  fs.writeFileSync(result, `${canonicalJson(resultDocument(evaluation))}\n`);
  return { report, result };
}

/** Everything that was concluded, without the traces it was concluded from. */
export function resultDocument({ result, runs, refused }: LotEvaluation) {
  return {
    result,
    runs: runs.map(({ run, reading, judgement }) => ({ run: run.run, reading, judgement })),
    refused: refused.map(({ run, unread }) => ({ run: run.run, problems: unread })),
  };
}
