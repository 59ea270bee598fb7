import { type CharacteristicValue, isNotEvaluated, type Sample } from '@breakbook/lab';
import { type JudgedRun, resultIn } from './claim.js';

/** The values of a claim for one characteristic. */
export interface ClaimSample {
  /** Other modes enter as at least where the part was found sound. */
  sample: Sample;
  n: number;
  /** The same with every mode counted as failure; only where modes were told apart. */
  allModes?: Sample;
  /** Codes of the other modes that enter as at least. */
  otherModes: string[];
  /** Runs of the claim that give no value, with the reason. A claim with one of them has no sample. */
  missing: { run: string; because: string; possibleIf: string }[];
}

/** The values that the runs of a claim give for this characteristic, all in its unit. */
export function sampleOf(runs: readonly JudgedRun[], characteristic: string): ClaimSample {
  const values: CharacteristicValue[] = [];
  const broken: CharacteristicValue[] = [];
  const otherModes = new Set<string>();
  const missing: ClaimSample['missing'] = [];

  for (const one of runs) {
    const { run } = one.run;
    const result = resultIn(one, characteristic);
    if (!result) {
      missing.push({ run, because: `it gives no ${characteristic}`, possibleIf: 'the method gives it or it is keyed' });
      continue;
    }
    if (isNotEvaluated(result.value)) {
      missing.push({ run, ...result.value.notEvaluated });
      continue;
    }
    values.push(result.value);
    const read = one.reading.characteristics.find((each) => each.characteristic === characteristic);
    const recorded = read?.ifBroken ?? read?.value;
    const setApart = result.value.kind === 'atLeast' && result.mode !== undefined;
    const asBroken = setApart && recorded !== undefined && !isNotEvaluated(recorded) ? recorded : result.value;
    if (asBroken.kind !== result.value.kind && result.mode !== undefined) otherModes.add(result.mode);
    broken.push(asBroken);
  }
  return {
    sample: asSample(values),
    n: values.length,
    ...(otherModes.size > 0 ? { allModes: asSample(broken) } : {}),
    otherModes: [...otherModes].sort(),
    missing,
  };
}

/** How many of a sample broke: all but those known as at least. */
export function failuresIn({ exact = [], atMost = [], between = [] }: Sample): number {
  return exact.length + atMost.length + between.length;
}

/** Values by the side from which each is known. */
export function asSample(values: readonly CharacteristicValue[]): Sample {
  const sample: Required<Sample> = { exact: [], atLeast: [], atMost: [], between: [] };
  for (const value of values)
    if (value.kind === 'between') sample.between.push([value.lower, value.upper]);
    else sample[value.kind].push(value.value);
  return sample;
}
