import type { Sample } from '@breakbook/lab';

/** One sample for each mode, every specimen in each: what is not broken by the mode held at least so much. */
export type SamplesByMode = Record<string, Sample>;

/** The samples of all modes made complete, and the sample in which every mode counts as a break. */
export interface ModesTogether {
  byMode: SamplesByMode;
  allModes: Sample;
}

/** What is wrong with the samples of which mode. */
export interface ModesProblem {
  mode: string;
  message: string;
}

/**
 * Brings the samples of several modes together. Each holds every specimen: those its mode broke, and the others as at
 * least the value at which another mode broke them or they were withdrawn (0 where a break is known as at most). The
 * specimens that stay are the survivors of all modes, the same in each sample.
 *
 * Samples without any "at least" value are taken as what each mode broke, every specimen having broken by one.
 */
export function modesTogether(samples: SamplesByMode): ModesTogether | ModesProblem {
  const modes = Object.keys(samples);
  const survivorsOnly = modes.every((mode) => (samples[mode]?.atLeast ?? []).length === 0);
  const byMode = survivorsOnly ? withOthersHeld(samples) : samples;

  const held = new Map(modes.map((mode) => [mode, heldBy(samples[mode] as Sample)]));
  let survivors: number[] | undefined;
  for (const mode of modes) {
    const left = (byMode[mode]?.atLeast ?? []).toSorted((a, b) => a - b);
    for (const other of modes) {
      if (other === mode) continue;
      for (const value of held.get(other) ?? []) {
        const place = left.indexOf(value);
        if (place < 0)
          return {
            mode,
            message:
              `a specimen that mode "${other}" broke at ${value} is missing here. Each mode's sample holds every ` +
              `specimen: give it as at least ${value}, since mode "${mode}" had not broken it by then`,
          };
        left.splice(place, 1);
      }
    }
    if (survivors === undefined) survivors = left;
    else if (survivors.length !== left.length || survivors.some((value, index) => value !== left[index]))
      return {
        mode,
        message:
          `here ${listed(left)} survived every mode, and in the sample of mode "${modes[0]}" ${listed(survivors)} did. ` +
          "Each mode's sample holds the same specimens: survivors of all modes stand in each as at least the same value",
      };
  }
  const all = modes.map((mode) => samples[mode] as Sample);
  return {
    byMode,
    allModes: {
      exact: all.flatMap(({ exact = [] }) => exact),
      atMost: all.flatMap(({ atMost = [] }) => atMost),
      between: all.flatMap(({ between = [] }) => between),
      atLeast: survivors ?? [],
    },
  };
}

/** What each specimen a mode broke is known to have held. */
function heldBy({ exact = [], atMost = [], between = [] }: Sample): number[] {
  return [...exact, ...between.map(([low]) => low), ...atMost.map(() => 0)];
}

function withOthersHeld(samples: SamplesByMode): SamplesByMode {
  return Object.fromEntries(
    Object.entries(samples).map(([mode, sample]) => [
      mode,
      {
        ...sample,
        atLeast: Object.entries(samples).flatMap(([other, theirs]) => (other === mode ? [] : heldBy(theirs))),
      },
    ]),
  );
}

function listed(values: readonly number[]): string {
  return values.length === 0 ? 'no specimen' : `specimens at ${values.join(', ')}`;
}
