import type { MethodCharacteristic, Reading } from '@breakbook/lab';
import { type Generator, seededGenerator } from '@breakbook/statistics';
import { named } from './reading.fixture.js';

/** Chance from a seed, in the shapes that a budget names (JCGM 100:2008, 4.3 and 4.4). */
export class Draw {
  private readonly generator: Generator;

  constructor(seed: number) {
    this.generator = seededGenerator(seed);
  }

  /** A seed for the noise of the record, unlike that of the run before. */
  seed(): number {
    return this.generator.word();
  }

  between(from: number, to: number): number {
    return from + (to - from) * this.generator.uniform();
  }

  normal(): number {
    return this.generator.normal();
  }

  rectangular(halfWidth: number): number {
    return this.between(-halfWidth, halfWidth);
  }

  triangular(halfWidth: number): number {
    return this.rectangular(halfWidth / 2) + this.rectangular(halfWidth / 2);
  }
}

/** What a run of known truth gave: for each characteristic, how far off it was and what it said of itself. */
export interface Told {
  characteristic: string;
  off: number;
  expanded: number;
}

export function told(reading: Reading, truths: Record<string, number>): Told[] {
  return Object.entries(truths).map(([characteristic, truth]) => {
    const { value, uncertainty } = named(reading, characteristic);
    if (!('value' in value) || !uncertainty) throw new Error(`${characteristic}: no number with its uncertainty`);
    return { characteristic, off: value.value - truth, expanded: uncertainty.expanded };
  });
}

export type Budget = NonNullable<MethodCharacteristic['uncertainty']>;
export const budgeted = (
  all: readonly MethodCharacteristic[],
  budgets: Record<string, Budget>,
): MethodCharacteristic[] =>
  all.flatMap(({ uncertainty: _, ...one }) => {
    const uncertainty = budgets[one.characteristic];
    return uncertainty ? [{ ...one, uncertainty }] : [];
  });
export const calibrated = (...channels: string[]): Budget => ({
  k: 2,
  components: channels.map((channel) => ({ from: 'calibration', name: channel, channel })),
});

/** The same, with a factor for 95 % where one part may outweigh the others. */
export const covering = (...components: Budget['components']): Budget => ({ coverage: 0.95, components });
export const certificate = (channel: string) => ({ from: 'calibration' as const, name: channel, channel });
