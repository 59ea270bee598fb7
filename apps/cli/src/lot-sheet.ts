import { boundInWords, valueInWords } from '@breakbook/acceptance';
import {
  isNotEvaluated,
  type LineResult,
  type LotBundle,
  type LotResult,
  type Problem,
  type Result,
  type Run,
  type RunJudgement,
  type Verdict,
} from '@breakbook/lab';
import { printProblem } from './refusals.js';
import { table, wrapped } from './terminal.js';

/** A lot as it was judged, or as it would be. */
export interface SheetOfLot {
  result: LotResult;
  judgements: readonly RunJudgement[];
  refused: readonly { run: Run; unread: Problem[] }[];
}

/** A judged lot on the terminal: outcome, each line with its runs and criteria, and what to know beside them. */
export function lotSheet(bundle: LotBundle, sheet: SheetOfLot): string {
  const { result, refused } = sheet;
  const parts = [
    `Lot ${bundle.lot.lot} · ${bundle.product.name} · ${bundle.lot.kind}, ${bundle.lot.size} made · plan ${result.plan.plan} rev. ${result.plan.revision}`,
    ...whatIfHead(result),
    `${result.outcome.toUpperCase()}\n${wrapped(result.sentence)}`,
    ...result.lines.map((line) => lineSheet(line, sheet)),
  ];
  if (result.notes.length > 0)
    parts.push(`What to know beside the numbers\n${result.notes.map((note) => wrapped(note, 96, '  ')).join('\n')}`);
  if (refused.length > 0)
    parts.push(
      `Not read\n${refused.map(({ run, unread }) => `Run ${run.run}, specimen ${run.specimen}:\n${unread.map(printProblem).join('\n')}`).join('\n')}`,
    );
  return parts.join('\n\n');
}

function lineSheet(line: LineResult, { judgements }: SheetOfLot): string {
  const { counts } = line;
  const counted = [
    `${counts.inClaim} of ${line.planned} planned in the claim`,
    `${counts.runs} runs`,
    ...(counts.withDeviation > 0 ? [`${counts.withDeviation} valid with deviation`] : []),
    ...(counts.invalid > 0 ? [`${counts.invalid} invalid`] : []),
    ...(counts.notDecided > 0 ? [`${counts.notDecided} not decided`] : []),
    ...(counts.void > 0 ? [`${counts.void} void`] : []),
  ].join(', ');
  const criteria = line.criteria.map(({ criterion, outcome, statement, because, possibleIf, bound, pooled, unit }) =>
    [
      `  ${criterion}  ${outcome}`,
      wrapped(statement, 96, '      '),
      ...(bound ? [`      lower bound ${boundInWords(bound.value, unit)} (${bound.technique})`] : []),
      ...(pooled?.sentence ? [wrapped(pooled.sentence, 96, '      ')] : []),
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
    indented(verdictTable(line, judgements)),
    ...leftOut,
    ...criteria,
    ...besideCriteria(line).map((sentence) => wrapped(sentence, 96, '  ')),
  ].join('\n');
}

/** Stages, outliers and the forecast of a line, as they were worded where they were found. */
function besideCriteria({ stages = [], outliers = [], forecast }: LineResult): string[] {
  const told = forecast && !isNotEvaluated(forecast) ? [`Forecast. ${forecast.sentence}`] : [];
  return [...[...stages, ...outliers].flatMap(({ sentence }) => sentence ?? []), ...told];
}

/** Nothing of it may be taken for a judgement. */
function whatIfHead({ whatIf }: LotResult): string[] {
  if (!whatIf) return [];
  return [`WHAT-IF, and no judgement of the lot\n${whatIf.changed.map((one) => wrapped(one, 96, '  ')).join('\n')}`];
}

/** Every run of the line with its verdicts, those left out of the claim with the reason. */
function verdictTable(line: LineResult, judgements: readonly RunJudgement[]): string {
  const judged = new Map(judgements.map((one) => [one.run, one]));
  const limits = [
    ...new Set(
      judgements
        .filter(({ planLine }) => planLine === line.line)
        .flatMap(({ verdicts }) => verdicts.map(({ limit }) => limit.limit)),
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
