import type { ImpactMethod, Method, Reading, Run } from '@breakbook/lab';
import { sameDimension, valueIn } from '@breakbook/units';

/** A run with its method and what was read of it. */
export interface ReadStrike {
  run: Run;
  method: Method;
  reading: Reading;
}

/** One wheel struck once: the energy aimed at, J, and whether it broke. */
export interface StaircaseTrial {
  run: string;
  specimen: string;
  level: number;
  broke: boolean;
}

/** What a staircase is worked out from, in the order of the strikes, and which runs say nothing of it. */
export interface StaircaseTrials {
  trials: StaircaseTrial[];
  leftOut: { run: string; because: string }[];
}

/**
 * Which of these runs are trials of a staircase, and how did each end? A trial is one strike of one wheel, found valid by a
 * person, that brought the energy it aimed at: the level is that energy, because a staircase goes in steps of it. It broke
 * where it was found damaged after the strike, or not sound by the examination. Runs of other tests are passed over.
 *
 * Wheels struck more than once are left out: damage may have grown from strike to strike. They are intervals, and stand as
 * such in `failureEnergy`.
 *
 * Dixon and Mood (1948), J. Amer. Statist. Assoc. 43, 109-126: one specimen, one trial.
 */
export function staircaseTrials(runs: readonly ReadStrike[]): StaircaseTrials {
  const trials: StaircaseTrial[] = [];
  const leftOut: StaircaseTrials['leftOut'] = [];
  const inOrder = [...runs].sort((a, b) => Date.parse(a.run.startedAt) - Date.parse(b.run.startedAt));
  for (const { run, method, reading } of inOrder) {
    if (method.test !== 'impact') continue;
    const said = trialOf(run, method, reading);
    if (typeof said === 'string') leftOut.push({ run: run.run, because: said });
    else trials.push(said);
  }
  return { trials, leftOut };
}

function trialOf(run: Run, method: ImpactMethod, reading: Reading): StaircaseTrial | string {
  const decided = run.validity?.validity;
  if (decided !== 'valid' && decided !== 'valid with deviation')
    return decided === undefined ? 'nobody decided yet whether it is valid' : `it is ${decided}`;
  const passages = run.passages ?? [];
  if (passages.length > 1) return `the wheel was struck ${passages.length} times, and a trial is one strike`;
  const inBand = reading.checks.find(({ check }) => check === 'energy in band');
  if (inBand?.outcome !== 'pass')
    return `it is not shown that it brought the energy aimed at: ${inBand?.finding ?? 'no check says so'}`;
  const broke = wasBroken(run);
  if (broke === undefined) return 'nobody says whether the wheel was found whole';
  const [passage] = passages;
  const own = passage?.target && sameDimension(passage.target.unit, 'J') ? passage.target : undefined;
  const level = valueIn(own ?? method.parameters.targetEnergy, 'J');
  return { run: run.run, specimen: run.specimen, level, broke };
}

function wasBroken({ passages, examination }: Run): boolean | undefined {
  const found = passages?.[0]?.found;
  if (found === 'damaged' || found === 'whole') return found === 'damaged';
  if (examination?.partSound === 'sound') return false;
  return examination?.partSound === 'not sound' ? true : undefined;
}
