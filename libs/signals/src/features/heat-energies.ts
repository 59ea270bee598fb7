import { type CharacteristicValue, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { Computed } from './characteristic.js';
import { correctionStep } from './correction-step.js';
import { HEAT_CHANNELS } from './heat.js';
import { controlCaution, controlStep } from './heat-control.js';
import { type HeatSource, reached, secondsInGaps, whyEnergyIncomplete, whyIncomplete } from './heat-source.js';
import { over, type Stretch } from './heat-stretch.js';
import { failureStep } from './heat-temperatures.js';
import { inUnit, seconds } from './words.js';

const joules = inUnit('J');
const watts = inUnit('W');

/** A sum over every stage, up to the end of each record or up to where the run was survived. */
function total(source: HeatSource, of: (stretch: Stretch) => Float64Array, to?: (stretch: Stretch) => number): number {
  return source.stretches.reduce((sum, one) => sum + over(of(one), one, to?.(one)), 0);
}

/** Energy follows force by the way braked, and speed by the force's time. */
function followsForceAndSpeed(distance: number, forceTime: number) {
  return (channel: string) =>
    channel === HEAT_CHANNELS.force ? distance : channel === HEAT_CHANNELS.speed ? forceTime : undefined;
}

function corrections({ corrections: of }: HeatSource): Step[] {
  return [HEAT_CHANNELS.force, HEAT_CHANNELS.speed].map((channel) => correctionStep(of.get(channel), channel));
}

function stagesStep(source: HeatSource, name: string, unit: string, of: (stretch: Stretch) => number): Step[] {
  if (source.stretches.length < 2) return [];
  return [
    {
      question: 'How is it shared among the stages?',
      numbers: Object.fromEntries(
        source.stretches.map((one, index) => [`${name} in stage ${one.passage ?? index + 1}, ${unit}`, of(one)]),
      ),
      answer: 'The value is the sum of these.',
    },
  ];
}

function incompleteStep(reasons: string[]): Step[] {
  if (reasons.length === 0) return [];
  return [{ question: 'Is it known exactly?', numbers: {}, answer: `No, it is at least this: ${reasons.join('; ')}.` }];
}

export function brakingEnergy(source: HeatSource): Computed {
  const energy = total(source, ({ features }) => features.energy);
  const reasons = whyEnergyIncomplete(source);
  return {
    value: { kind: reasons.length > 0 ? 'atLeast' : 'exact', value: energy },
    unit: 'J',
    steps: [
      ...corrections(source),
      {
        question: 'How much energy went into the brake?',
        numbers: { 'longest gap bridged, s': valueIn(source.method.parameters.longestGap, 's'), 'energy, J': energy },
        answer: `${joules(energy)}: the integral of force times speed over time, by trapezoids over the samples as recorded.`,
      },
      ...stagesStep(source, 'energy', 'J', (one) => over(one.features.energy, one)),
      ...incompleteStep(reasons),
    ],
    sensitivity: followsForceAndSpeed(
      total(source, ({ features }) => features.distance),
      total(source, ({ features }) => features.forceTime),
    ),
  };
}

export function meanPower(source: HeatSource): Computed {
  const time = total(source, ({ features }) => features.on.time);
  if (time === 0)
    return {
      value: notEvaluated(
        `the brake was never on: its power stayed below ${watts(valueIn(source.method.parameters.offPower, 'W'))}`,
        'a record that holds the braking of this specimen is read',
      ),
      unit: 'W',
      steps: [],
    };
  const energy = total(source, ({ features }) => features.on.energy);
  const clipped = source.stretches.some(({ features }) => features.forceFlatTop);
  return {
    value: { kind: clipped ? 'atLeast' : 'exact', value: energy / time },
    unit: 'W',
    steps: [
      ...corrections(source),
      {
        question: 'How strongly was it braked, while the brake was on?',
        numbers: {
          'off below, W': valueIn(source.method.parameters.offPower, 'W'),
          'energy while on, J': energy,
          'time on, s': time,
          'power, W': energy / time,
        },
        answer: `${watts(energy / time)}: energy while the brake was on over the time it was on.`,
      },
    ],
    sensitivity: followsForceAndSpeed(
      total(source, ({ features }) => features.on.distance) / time,
      total(source, ({ features }) => features.on.forceTime) / time,
    ),
  };
}

/** A sum that grows until the part fails: exact where the record shows the failure, else at least. */
function survived(
  source: HeatSource,
  of: (stretch: Stretch) => Float64Array,
  unit: string,
  reasons: string[],
  /** The most that it can have been with nothing failed; undefined where nothing limits it. */
  most: (whole: number) => number | undefined,
): Pick<Computed, 'value' | 'ifBroken' | 'unit'> {
  const { failure, step, stretch } = source.survival;
  const whole = total(source, of, (one) => reached(source, one));
  if (failure) return { value: { kind: reasons.length > 0 ? 'atLeast' : 'exact', value: whole }, unit };

  const highest = most(whole);
  const ifBroken: CharacteristicValue | NotEvaluated =
    step && reasons.length === 0
      ? { kind: 'exact', value: total(source, of, (one) => (one === stretch ? step.index : one.last)) }
      : highest === undefined
        ? notEvaluated(
            `the record shows no moment of failure and is not whole: ${reasons.join('; ')}`,
            'the record is whole, or shows when the part failed',
          )
        : { kind: 'atMost', value: highest };
  return { value: { kind: 'atLeast', value: whole }, ifBroken, unit };
}

export function energySurvived(source: HeatSource): Computed {
  const reasons = whyEnergyIncomplete(source);
  return {
    ...survived(
      source,
      ({ features }) => features.energy,
      'J',
      reasons,
      (whole) => (reasons.length > 0 ? undefined : whole),
    ),
    steps: [
      controlStep(source),
      ...corrections(source),
      failureStep(source),
      {
        question: 'How much energy did it take until then, over all stages?',
        numbers: {
          'energy, J': total(
            source,
            ({ features }) => features.energy,
            (one) => reached(source, one),
          ),
        },
        answer: 'The integral of force times speed, up to the failure or to the end of the last record.',
      },
      ...stagesStep(source, 'energy', 'J', (one) => over(one.features.energy, one, reached(source, one))),
      ...incompleteStep(reasons),
    ],
    sensitivity: followsForceAndSpeed(
      total(
        source,
        ({ features }) => features.distance,
        (one) => reached(source, one),
      ),
      total(
        source,
        ({ features }) => features.forceTime,
        (one) => reached(source, one),
      ),
    ),
    caution: controlCaution(source),
  };
}

/** Do stages differ in the power asked? A minute of one is then no minute of another. */
function unlikePowers({ stretches }: HeatSource): boolean {
  return new Set(stretches.map(({ programme }) => programme && valueIn(programme.power, 'W'))).size > 1;
}

export function timeSurvived(source: HeatSource): Computed {
  const reasons = whyIncomplete(source);
  const braked = total(
    source,
    ({ features }) => features.on.time,
    (one) => reached(source, one),
  );
  return {
    ...survived(
      source,
      ({ features }) => features.on.time,
      's',
      reasons,
      (whole) =>
        // The brake may have been on in every gap; a stage without a record limits nothing.
        source.unrecorded.length > 0 ? undefined : whole + secondsInGaps(source),
    ),
    steps: [
      controlStep(source),
      failureStep(source),
      {
        question: 'For how long was it braked until then, over all stages?',
        numbers: { 'time on, s': braked },
        answer: `${seconds(braked)} with the brake on; interruptions and cooling are not counted.`,
      },
      ...stagesStep(source, 'time on', 's', (one) => over(one.features.on.time, one, reached(source, one))),
      ...incompleteStep(reasons),
    ],
    caution: `${controlCaution(source)}${unlikePowers(source) ? '; it adds stages of unlike power, so that lives are compared by energy' : ''}`,
  };
}
