import fs from 'node:fs';
import path from 'node:path';
import { boundInWords, evaluateLot, type LotEvaluation, valueInWords } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import {
  EXIT,
  isNotEvaluated,
  type LineResult,
  type LotBundle,
  type LotResult,
  Refusal,
  type Result,
  type Verdict,
} from '@breakbook/lab';
import { composeDocument, lotReportContent } from '@breakbook/reports';
import { openLotFolder } from '../lot-folder.js';
import { printProblem } from '../refusals.js';
import { Progress, table, wrapped } from '../terminal.js';

export interface JudgeOptions {
  out: string;
  paper: string;
}

const STATUS: Record<LotResult['outcome'], number> = {
  'meets the plan': EXIT.done,
  'does not meet the plan': EXIT.doesNotMeet,
  undecided: EXIT.undecided,
};

/** A lot folder in; verdicts on the terminal, report and result in the out folder. No server, no database. */
export async function judgeCommand(folder: string, options: JudgeOptions): Promise<number> {
  const { paper } = options;
  if (paper !== 'A4' && paper !== 'Letter')
    throw new Refusal({ code: 'query.invalid', detail: `--paper is "${paper}"; it must be A4 or Letter.` });

  const { bundle, filesOf } = openLotFolder(folder);
  const progress = new Progress('reading runs');
  const evaluation = evaluateLot(bundle, filesOf, ({ done, of, share }) => progress.report(done + share, of));
  progress.end();

  console.log(lotSheet(bundle, evaluation));
  const written = await writeOut(bundle, evaluation, options.out, paper);
  console.log(`\nReport  ${written.report}\nResult  ${written.result}`);
  return evaluation.refused.length > 0 ? EXIT.badInput : STATUS[evaluation.result.outcome];
}

function lotSheet(bundle: LotBundle, evaluation: LotEvaluation): string {
  const { result, refused } = evaluation;
  const parts = [
    `Lot ${bundle.lot.lot} · ${bundle.product.name} · ${bundle.lot.kind}, ${bundle.lot.size} made · plan ${result.plan.plan} rev. ${result.plan.revision}`,
    `${result.outcome.toUpperCase()}\n${wrapped(result.sentence)}`,
    ...result.lines.map((line) => lineSheet(line, evaluation)),
  ];
  if (result.notes.length > 0)
    parts.push(`What to know beside the numbers\n${result.notes.map((note) => wrapped(note, 96, '  ')).join('\n')}`);
  if (refused.length > 0)
    parts.push(
      `Not read\n${refused.map(({ run, unread }) => `Run ${run.run}, specimen ${run.specimen}:\n${unread.map(printProblem).join('\n')}`).join('\n')}`,
    );
  return parts.join('\n\n');
}

function lineSheet(line: LineResult, evaluation: LotEvaluation): string {
  const { counts } = line;
  const counted = [
    `${counts.inClaim} of ${line.planned} planned in the claim`,
    `${counts.runs} runs`,
    ...(counts.withDeviation > 0 ? [`${counts.withDeviation} valid with deviation`] : []),
    ...(counts.invalid > 0 ? [`${counts.invalid} invalid`] : []),
    ...(counts.notDecided > 0 ? [`${counts.notDecided} not decided`] : []),
    ...(counts.void > 0 ? [`${counts.void} void`] : []),
  ].join(', ');
  const criteria = line.criteria.map(({ criterion, outcome, statement, because, possibleIf, bound, unit }) =>
    [
      `  ${criterion}  ${outcome}`,
      wrapped(statement, 96, '      '),
      ...(bound ? [`      lower bound ${boundInWords(bound.value, unit)} (${bound.technique})`] : []),
      ...(because ? [wrapped(`because ${because}`, 96, '      ')] : []),
      ...(possibleIf ? [wrapped(`possible if ${possibleIf}`, 96, '      ')] : []),
    ].join('\n'),
  );
  const leftOut = line.entries
    .filter(({ inClaim }) => !inClaim)
    .map(({ run, because }) => wrapped(`Run ${run} is left out of the claim: ${because}.`, 96, '  '));
  return [
    `Line ${line.line}: ${line.title}`,
    `  ${counted}`,
    indented(verdictTable(line, evaluation)),
    ...leftOut,
    ...criteria,
  ].join('\n');
}

/** Every run of the line with its verdicts, those left out of the claim with the reason. */
function verdictTable(line: LineResult, { runs }: LotEvaluation): string {
  const judged = new Map(runs.map(({ run, judgement }) => [run.run, judgement]));
  const limits = [
    ...new Set(
      runs
        .filter(({ run }) => run.planLine === line.line)
        .flatMap(({ judgement }) => judgement.verdicts.map(({ limit }) => limit.limit)),
    ),
  ];
  const rows = line.entries.map(({ run, specimen, result, inClaim }) => [
    run,
    specimen,
    result ? resultText(result) : 'none',
    result?.mode ?? '',
    ...limits.map((limit) => verdictText(judged.get(run)?.verdicts.find((verdict) => verdict.limit.limit === limit))),
    inClaim ? '' : 'left out',
  ]);
  return table(
    [
      { head: 'run', side: 'right' },
      { head: 'specimen', side: 'right' },
      { head: line.title.toLowerCase() },
      { head: 'mode' },
      ...limits.map((head) => ({ head })),
      { head: '' },
    ],
    rows,
  );
}

function resultText({ value, unit, uncertainty }: Result): string {
  if (isNotEvaluated(value)) return 'not evaluated';
  return valueInWords(value, unit, uncertainty ? { uncertainty: uncertainty.expanded } : {});
}

function verdictText(verdict: Verdict | undefined): string {
  return verdict?.outcome ?? '';
}

function indented(text: string): string {
  return text
    .split('\n')
    .map((line) => `  ${line}`)
    .join('\n');
}

async function writeOut(bundle: LotBundle, evaluation: LotEvaluation, out: string, paper: 'A4' | 'Letter') {
  const folder = path.join(out, bundle.lot.lot);
  fs.mkdirSync(folder, { recursive: true });
  const content = lotReportContent({
    bundle,
    evaluation,
    document: { number: `${bundle.lot.lot}-draft`, revision: 1, issuedAt: new Date().toISOString(), signatures: [] },
  });
  const report = path.join(folder, 'lot-test-report.pdf');
  const result = path.join(folder, 'result.json');
  fs.writeFileSync(report, await composeDocument('lot test report', content, { paper }));
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
