import type { Plan } from '../plans.js';
import type { Examination, ValidityDecision } from '../runs.js';

/** A run that a specimen went through before. */
export interface EarlierRun {
  run: string;
  plan: string;
  planLine: string;
  validity?: ValidityDecision['validity'] | undefined;
  partSound?: Examination['partSound'] | undefined;
}

/**
 * Did this run load its specimen? One that is void was recorded by mistake and loaded nothing; an invalid one loaded
 * nothing that counts where the part was found sound after it (common practice, no source).
 */
export function hasLoaded({ validity, partSound }: EarlierRun): boolean {
  if (validity === 'void') return false;
  return !(validity === 'invalid' && partSound === 'sound');
}

/**
 * Which earlier run keeps a specimen from being run under this line of a plan? One that loaded it under a line whose
 * survivors the plan does not take here; undefined where there is none.
 */
export function keptFromRunBy(
  earlier: readonly EarlierRun[],
  { plan, lines }: Pick<Plan, 'plan' | 'lines'>,
  planLine: string,
): EarlierRun | undefined {
  const taken = lines.find(({ line }) => line === planLine)?.survivorsOf ?? [];
  return earlier.find((one) => hasLoaded(one) && !(one.plan === plan && taken.includes(one.planLine)));
}
