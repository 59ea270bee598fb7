import { type CharacteristicValue, isNotEvaluated, notEvaluated } from '@breakbook/lab';
import type { Computed } from './characteristic.js';
import { onsetForce } from './impact-forces.js';
import type { ImpactSource } from './impact-source.js';
import { inUnit } from './words.js';

/** A strike with the force, N, or energy, J, at which it gave way, or up to which it did not. */
interface Shown {
  number: number;
  size: number;
  gaveWay: boolean;
  computed: Computed;
}

/**
 * Force or energy at which damage began, as far as all strikes on this wheel show it:
 *
 * - rising energy at one point: between the largest that a strike reached without a sudden fall and the force at
 *   which the first strike with one gave way. Where that is the smaller of the two, earlier strikes had weakened the part;
 *   between both all the same;
 * - several points of one wheel: the first fall is that of its point; where there is none, the wheel held at least the
 *   smallest peak, since each point has its own strength;
 * - no fall in any strike at one point: at least the largest peak.
 *
 * What is struck after the first fall says nothing of where damage began. Interval of a step series: common practice, no
 * source.
 */
export function firstOnset({ strikes, method }: ImpactSource, of: typeof onsetForce = onsetForce): Computed {
  const shown: Shown[] = [];
  for (const strike of strikes) {
    const computed = of(strike, method);
    if (strikes.length === 1) return computed;
    const { value } = computed;
    if (isNotEvaluated(value))
      return {
        ...computed,
        value: notEvaluated(`strike ${strike.number}: ${value.notEvaluated.because}`, value.notEvaluated.possibleIf),
      };
    if (value.kind === 'between') throw new Error('a strike gives one number');
    const one = { number: strike.number, size: value.value, gaveWay: value.kind === 'exact', computed };
    shown.push(one);
    if (one.gaveWay) break;
  }
  const print = inUnit(shown[0]?.computed.unit ?? '1');
  const severalPoints = method.parameters.series === 'several points';
  const { stands, value, answer } = severalPoints ? ofPoints(shown, print) : ofOnePoint(shown, print);
  return {
    ...stands.computed,
    value,
    steps: [
      {
        question: 'What do the strikes show together?',
        numbers: Object.fromEntries(
          shown.map(({ number, size, gaveWay }) => [
            `strike ${number}`,
            `${print(size)}, ${gaveWay ? 'gave way' : 'did not give way'}`,
          ]),
        ),
        answer,
      },
      ...stands.computed.steps,
    ],
  };
}

interface Together {
  /** The strike whose steps are told. */
  stands: Shown;
  value: CharacteristicValue;
  answer: string;
}

function ofOnePoint(shown: readonly Shown[], print: (size: number) => string): Together {
  const last = shown.at(-1) as Shown;
  const strongest = shown.filter(({ gaveWay }) => !gaveWay).reduce(larger, undefined);
  if (!last.gaveWay) {
    const stands = strongest as Shown;
    return {
      stands,
      value: { kind: 'atLeast', value: stands.size },
      answer: `No strike gave way; strike ${stands.number} went highest, to ${print(stands.size)}.`,
    };
  }
  const gave = `strike ${last.number} gave way at ${print(last.size)}`;
  if (!strongest || strongest.size === last.size)
    return {
      stands: last,
      value: { kind: 'exact', value: last.size },
      answer: `The first strike that gave way: ${gave}.`,
    };
  const [lower, upper] = [Math.min(strongest.size, last.size), Math.max(strongest.size, last.size)];
  return {
    stands: last,
    value: { kind: 'between', lower, upper },
    answer: `Strike ${strongest.number} held ${print(strongest.size)} and ${gave}${last.size < strongest.size ? ': earlier strikes had weakened the part' : ''}.`,
  };
}

function ofPoints(shown: readonly Shown[], print: (size: number) => string): Together {
  const last = shown.at(-1) as Shown;
  if (last.gaveWay)
    return {
      stands: last,
      value: { kind: 'exact', value: last.size },
      answer: `The point of strike ${last.number} gave way at ${print(last.size)}, the first to do so.`,
    };
  const stands = shown.reduce((least, one) => (one.size < least.size ? one : least));
  return {
    stands,
    value: { kind: 'atLeast', value: stands.size },
    answer: `No point gave way; the least loaded one, of strike ${stands.number}, held ${print(stands.size)}.`,
  };
}

function larger(one: Shown | undefined, other: Shown): Shown {
  return one && one.size >= other.size ? one : other;
}
