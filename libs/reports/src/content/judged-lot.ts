import {
  type ClaimEntry,
  type Limit,
  type LimitRef,
  type LineResult,
  type LotBundle,
  type LotResult,
  limitName,
  type Method,
  type PlanLine,
  type Result,
  type Run,
  type RunJudgement,
} from '@breakbook/lab';

/** A lot's records with what was judged of them: all that pictures and tables of results rest on. */
export interface JudgedLot {
  bundle: LotBundle;
  lot: LotResult;
  judgements: readonly RunJudgement[];
}

/** A plan line with its result, its method and its limits. */
export interface JudgedLine {
  line: PlanLine;
  result: LineResult;
  method: Method;
  limits: Limit[];
}

export function linesOf({ bundle, lot }: JudgedLot): JudgedLine[] {
  return bundle.plan.lines.map((line) => {
    const result = lot.lines.find((one) => one.line === line.line);
    const method = bundle.methods.find((one) => one.method === line.method && one.revision === line.methodRevision);
    if (!result || !method)
      throw new Error(
        `Line ${line.line} of plan ${bundle.plan.plan} has no ${result ? 'method' : 'result'} in the lot that was handed over.`,
      );
    return { line, result, method, limits: line.limits.map((ref) => limitOf(bundle, ref)) };
  });
}

export function lineOf(judged: JudgedLot, line: string): JudgedLine {
  const found = linesOf(judged).find((one) => one.line.line === line);
  if (found) return found;
  throw new Error(`Plan ${judged.bundle.plan.plan} has no line ${line}.`);
}

export function limitOf({ limits }: LotBundle, ref: LimitRef): Limit {
  const found = limits.find(({ limit, revision }) => limit === ref.limit && revision === ref.revision);
  if (found) return found;
  throw new Error(`Limit ${limitName(ref)} is not among the records of the lot.`);
}

/** A run of a line as judged: what it showed, and where it stands in the claim. */
export interface JudgedRunOfLine {
  run: Run;
  judgement: RunJudgement;
  entry: ClaimEntry | undefined;
}

/** The judged runs of a line, in the order recorded. */
export function runsOf({ bundle, judgements }: JudgedLot, { line, result }: JudgedLine): JudgedRunOfLine[] {
  return bundle.runs
    .filter((run) => run.planLine === line.line)
    .flatMap((run) => {
      const judgement = judgements.find((one) => one.run === run.run);
      return judgement ? [{ run, judgement, entry: result.entries.find((one) => one.run === run.run) }] : [];
    });
}

/** Only a valid run's value is shown among results. */
export function isValid({ judgement }: Pick<JudgedRunOfLine, 'judgement'>): boolean {
  return judgement.validity === 'valid' || judgement.validity === 'valid with deviation';
}

export function resultOf(
  { judgement }: Pick<JudgedRunOfLine, 'judgement'>,
  characteristic: string,
): Result | undefined {
  return judgement.results.find((one) => one.characteristic === characteristic);
}

/** The limit's number in the characteristic's unit, as the verdicts have it. */
export function limitValueOf(
  judged: JudgedLot,
  limit: Limit,
): { lower?: number; upper?: number; unit: string } | undefined {
  for (const { verdicts } of judged.judgements) {
    const verdict = verdicts.find((one) => one.limit.limit === limit.limit && one.limit.revision === limit.revision);
    if (verdict) return { ...verdict.limitValue, unit: verdict.unit };
  }
  return undefined;
}

/** Name of a person, or the key where the records do not have them. */
export function personOf({ people }: LotBundle, key: string): string {
  return people.find(({ person }) => person === key)?.name ?? key;
}
