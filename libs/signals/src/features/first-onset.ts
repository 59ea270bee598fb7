import { type CharacteristicValue, isNotEvaluated, notEvaluated } from '@breakbook/lab';
import { type Computed } from './characteristic.js';
import { onsetForce } from './impact-forces.js';
import { type ImpactSource } from './impact-source.js';
import { inUnit } from './words.js';

const newtons = inUnit('N');

/** A strike with the force at which it gave way, or up to which it did not, N. */
interface Shown {
  number: number;
  force: number;
  gaveWay: boolean;
  computed: Computed;
}

/**
 * Force at which damage began, N, as far as all strikes on this wheel show it:
 *
 * - rising energy at one point: between the largest force that a strike reached without a sudden fall and the force at
 *   which the first strike with one gave way. Where that is the smaller of the two, earlier strikes had weakened the part;
 *   between both all the same;
 * - several points of one wheel: the first fall is that of its point; where there is none, the wheel held at least the
 *   smallest peak, since each point has its own strength;
 * - no fall in any strike at one point: at least the largest peak.
 *
 * What is struck after the first fall says nothing of where damage began. Interval of a step series: common practice, no
 * source.
 */
export function firstOnset({ strikes, method }: ImpactSource): Computed {
  const shown: Shown[] = [];
  for (const strike of strikes) {
    const computed = onsetForce(strike, method);
    if (strikes.length === 1) return computed;
    const { value } = computed;
    if (isNotEvaluated(value))
      return {
        ...computed,
        value: notEvaluated(`strike ${strike.number}: ${value.notEvaluated.because}`, value.notEvaluated.possibleIf),
      };
    if (value.kind === 'between') throw new Error('a strike gives one number');
    const one = { number: strike.number, force: value.value, gaveWay: value.kind === 'exact', computed };
    shown.push(one);
    if (one.gaveWay) break;
  }
  const severalPoints = method.parameters.series === 'several points';
  const { stands, value, answer } = severalPoints ? ofPoints(shown) : ofOnePoint(shown);
  return {
    ...stands.computed,
    value,
    steps: [
      {
        question: 'What do the strikes show together?',
        numbers: Object.fromEntries(
          shown.map(({ number, force, gaveWay }) => [
            `strike ${number}`,
            `${newtons(force)}, ${gaveWay ? 'gave way' : 'did not give way'}`,
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

function ofOnePoint(shown: readonly Shown[]): Together {
  const last = shown.at(-1) as Shown;
  const strongest = shown.filter(({ gaveWay }) => !gaveWay).reduce(larger, undefined);
  if (!last.gaveWay) {
    const stands = strongest as Shown;
    return {
      stands,
      value: { kind: 'atLeast', value: stands.force },
      answer: `No strike gave way; strike ${stands.number} went highest, to ${newtons(stands.force)}.`,
    };
  }
  const gave = `strike ${last.number} gave way at ${newtons(last.force)}`;
  if (!strongest || strongest.force === last.force)
    return {
      stands: last,
      value: { kind: 'exact', value: last.force },
      answer: `The first strike that gave way: ${gave}.`,
    };
  const [lower, upper] = [Math.min(strongest.force, last.force), Math.max(strongest.force, last.force)];
  return {
    stands: last,
    value: { kind: 'between', lower, upper },
    answer: `Strike ${strongest.number} held ${newtons(strongest.force)} and ${gave}${last.force < strongest.force ? ': earlier strikes had weakened the part' : ''}.`,
  };
}

function ofPoints(shown: readonly Shown[]): Together {
  const last = shown.at(-1) as Shown;
  if (last.gaveWay)
    return {
      stands: last,
      value: { kind: 'exact', value: last.force },
      answer: `The point of strike ${last.number} gave way at ${newtons(last.force)}, the first to do so.`,
    };
  const stands = shown.reduce((least, one) => (one.force < least.force ? one : least));
  return {
    stands,
    value: { kind: 'atLeast', value: stands.force },
    answer: `No point gave way; the least loaded one, of strike ${stands.number}, held ${newtons(stands.force)}.`,
  };
}

function larger(one: Shown | undefined, other: Shown): Shown {
  return one && one.force >= other.force ? one : other;
}
