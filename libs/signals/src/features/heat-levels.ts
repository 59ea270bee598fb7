import { notEvaluated, type Step } from '@breakbook/lab';
import { printSignificant, unitSymbol, valueIn } from '@breakbook/units';
import type { Computed } from './characteristic.js';
import { degreesAbove } from './degrees-above.js';
import { hottestOf } from './heat.js';
import { type HeatSource, whyIncomplete } from './heat-source.js';
import { whyOpen } from './heat-temperatures.js';
import { timeAbove } from './time-above.js';
import { seconds } from './words.js';

/** Temperature step over which the change of a sum with its sensor is taken, K. */
const SHIFT = 2;

/** What is summed over the time above a level, and how it is told. */
interface Summed {
  unit: string;
  of: typeof timeAbove;
  step: (level: number, sum: number) => Step;
}

const SUMS: Record<string, Summed> = {
  timeAbove: {
    unit: 's',
    of: timeAbove,
    step: (level, sum) => ({
      question: `For how long was the track above ${level} Cel?`,
      numbers: { 'level, Cel': level, 'above, s': sum },
      answer: `${seconds(sum)}, of the hottest sensor, with crossings interpolated`,
    }),
  },
  damageAbove: {
    unit: 'K.s',
    of: degreesAbove,
    step: (level, sum) => ({
      question: `For how long, and by how much, was the track above ${level} Cel?`,
      numbers: { 'level, Cel': level, 'damage index, K.s': sum },
      answer: `${printSignificant(sum, 4)} ${unitSymbol('K.s')}: the integral of what the hottest sensor shows above the level, over time. It weighs a degree for a minute like sixty for a second, which no resin need do`,
    }),
  },
};

/** A sum over the time above one level, by the name of the characteristic: `timeAbove150`, `damageAbove150`. */
export function overLevel(name: string): ((source: HeatSource) => Computed) | undefined {
  const [, kind = '', level] = /^(timeAbove|damageAbove)(\d{1,4})$/.exec(name) ?? [];
  const summed = SUMS[kind];
  return summed && ((source) => overLevelOf(source, Number(level), summed));
}

function overLevelOf(source: HeatSource, level: number, { unit, of, step }: Summed): Computed {
  const { parameters } = source.method;
  if (!parameters.thresholds.some((one) => Math.abs(valueIn(one, 'Cel') - level) < 1e-6))
    return {
      value: notEvaluated(
        `method ${source.method.method} rev. ${source.method.revision} lists no threshold of ${level} ${unitSymbol('Cel')}`,
        `a revision of the method lists it`,
      ),
      unit,
      steps: [],
    };
  const total = (shifted?: string, by = 0) =>
    source.stretches.reduce((sum, { features, from, last }) => {
      const courses = features.track.map(({ channel, filtered }) =>
        channel === shifted ? filtered.map((value) => value + by) : filtered,
      );
      const hottest = shifted === undefined ? features.hottest : hottestOf(courses);
      return sum + of(features.record.time, hottest, level, { from, last }, features.longestGap);
    }, 0);
  const reasons = [...whyIncomplete(source), ...whyOpen(source)];
  const above = total();
  const tracks = new Set(source.stretches.flatMap(({ features }) => features.track.map(({ channel }) => channel)));
  const told = step(level, above);
  return {
    value: { kind: reasons.length > 0 ? 'atLeast' : 'exact', value: above },
    unit,
    steps: [
      { ...told, answer: `${told.answer}${reasons.length > 0 ? `; at least this: ${reasons.join('; ')}` : ''}.` },
    ],
    sensitivity: (channel) =>
      tracks.has(channel) ? (total(channel, SHIFT) - total(channel, -SHIFT)) / (2 * SHIFT) : undefined,
  };
}
