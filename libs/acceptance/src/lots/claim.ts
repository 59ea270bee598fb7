import {
  type ClaimEntry,
  type EarlierRun,
  keptFromRunBy,
  type Plan,
  type PlanLine,
  type Problem,
  type Reading,
  type Run,
  type RunJudgement,
  type Specimen,
} from '@breakbook/lab';
import { counted } from '../words/index.js';

/** A run as read and judged. */
export interface JudgedRun {
  run: Run;
  reading: Reading;
  judgement: RunJudgement;
}

/** A run whose files were refused: kept, not judged, and not forgotten. */
export interface UnreadRun {
  run: Run;
  unread: Problem[];
}

/** What a line's claim rests on. */
export interface Claim {
  entries: ClaimEntry[];
  /** The runs that make it, in the order recorded. */
  runs: JudgedRun[];
  planned: number;
  /** Runs that keep a place until they are decided or read. */
  waiting: number;
  /** Runs made after the planned number was complete. */
  beyond: string[];
  /** As many valid runs as the plan asks for: only then may a bound be looked at. */
  complete: boolean;
}

/** Where a run stands: in the claim, out of it, or keeping a place in it until it is decided. */
type Standing = { in: true } | { in: false; because: string; keepsPlace?: true; beyond?: true };

/**
 * Which runs make the claim of this plan line? The first valid runs, as many as planned, on specimens of this lot drawn
 * at random and not loaded before, but by lines whose survivors this one takes; every other run is shown with the reason why it is left out.
 *
 * `runs` are all runs of the lot in the order recorded. A run beyond the planned number never enters: looking again
 * after more specimens would accept bad lots more often than stated. A run that is not decided, or not readable, keeps
 * its place, or else a later specimen could be tested in its stead.
 */
export function claimOf(
  line: PlanLine,
  plan: Pick<Plan, 'plan' | 'lines'>,
  runs: readonly (JudgedRun | UnreadRun)[],
  specimens: readonly Specimen[],
): Claim {
  const before = new Map<string, EarlierRun[]>();
  const entries: ClaimEntry[] = [];
  const inClaim: JudgedRun[] = [];
  let places = line.specimens;
  let waiting = 0;
  const beyond: string[] = [];

  for (const one of runs) {
    const { run } = one;
    const earlier = before.get(run.specimen) ?? [];
    before.set(run.specimen, [...earlier, asEarlier(run, plan)]);
    if (run.planLine !== line.line) continue;

    const standing = standingOf(
      one,
      specimens.find(({ specimen }) => specimen === run.specimen),
      keptFromRunBy(earlier, plan, line.line)?.run,
      places,
      line,
    );
    if (standing.in || standing.keepsPlace) places--;
    if (!standing.in && standing.keepsPlace) waiting++;
    if (!standing.in && standing.beyond) beyond.push(run.run);
    const result = 'judgement' in one ? resultIn(one, line.characteristic) : undefined;
    entries.push({
      run: run.run,
      specimen: run.specimen,
      inClaim: standing.in,
      because: standing.in ? '' : standing.because,
      ...(result ? { result } : {}),
    });
    if (standing.in && 'judgement' in one) inClaim.push(one);
  }
  return {
    entries,
    runs: inClaim,
    planned: line.specimens,
    waiting,
    beyond,
    complete: inClaim.length >= line.specimens,
  };
}

function standingOf(
  one: JudgedRun | UnreadRun,
  specimen: Specimen | undefined,
  earlier: string | undefined,
  places: number,
  line: PlanLine,
): Standing {
  const out = (because: string): Standing => ({ in: false, because });
  const { run } = one;
  if (isVoid(run)) return out('void: the record was entered by mistake');
  if (!specimen) return out(`specimen ${run.specimen} is not of this lot`);
  if ('judgement' in one && one.judgement.validity === 'invalid')
    return out(`invalid${one.judgement.validityReason ? `: ${one.judgement.validityReason}` : ''}`);
  if (specimen.origin !== 'drawn at random')
    return out(`${specimen.origin}: only specimens drawn at random speak for the lot`);
  if (earlier !== undefined)
    return out(`specimen ${run.specimen} was loaded before, in run ${earlier}: each test needs its own specimen`);
  if (places <= 0)
    return { in: false, because: `beyond the ${counted(line.specimens, 'specimen')} planned`, beyond: true };
  if (!('judgement' in one))
    return {
      in: false,
      because: `its file was refused: ${one.unread[0]?.detail ?? 'no reason given'}`,
      keepsPlace: true,
    };
  if (one.judgement.validity === 'not decided')
    return { in: false, because: 'its validity is not decided yet', keepsPlace: true };
  return { in: true };
}

function asEarlier({ run, planLine, validity, examination }: Run, { plan }: Pick<Plan, 'plan'>): EarlierRun {
  return { run, plan, planLine, validity: validity?.validity, partSound: examination?.partSound };
}

function isVoid({ validity }: Run): boolean {
  return validity?.validity === 'void';
}

export function resultIn({ judgement }: JudgedRun, characteristic: string) {
  return judgement.results.find((one) => one.characteristic === characteristic);
}
