import type { HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { HEAT_CHANNELS, STEADY } from '../../features/heat.js';
import { brakedSpan, type Stretch } from '../../features/heat-stretch.js';
import { runningMedian } from '../../features/running-median.js';
import { windowSamples } from '../../features/window-samples.js';
import { inUnit, percent } from '../../features/words.js';
import type { Finding } from '../finding.js';

interface Band {
  check: string;
  question: string;
  channel: string;
  values: Float64Array;
  target: number;
  /** As a share of the target. */
  band: number;
  /** Share of braking time that must lie in the band. */
  share: number;
  unit: string;
  action: string;
}

/**
 * Did power, speed and air stream keep to what the stage asks, while the brake was on? One check each. With a constant
 * lever weight the pads decide the power, so there is none to keep to.
 */
export function bandChecks(stretch: Stretch, parameters: HeatParameters): Finding[] {
  const { features, programme } = stretch;
  const { record } = features;
  const steady = (values: Float64Array) => runningMedian(values, windowSamples(STEADY, record.steps.period));
  const share = parameters.powerShareInBand;
  if (!programme) return [unknownStage(stretch)];
  return [
    ...(parameters.control === 'constant lever weight'
      ? []
      : [
          inBand(stretch, {
            check: 'power in band',
            question: 'Was the braking power what the stage asks?',
            channel: HEAT_CHANNELS.force,
            values: features.steadyPower,
            target: valueIn(programme.power, 'W'),
            band: parameters.powerBand,
            share,
            unit: 'W',
            action:
              'Check the control of the brake, its pads and the force sensor. A run at another power is not one of the method.',
          }),
        ]),
    inBand(stretch, {
      check: 'speed in band',
      question: 'Did the wheel turn as fast as the stage asks?',
      channel: HEAT_CHANNELS.speed,
      values: steady(record.speed),
      target: valueIn(programme.speed, 'm/s'),
      band: parameters.speedBand,
      share,
      unit: 'm/s',
      action: 'Check the drive and the speed sensor. A run at another speed is not one of the method.',
    }),
    ...(record.air
      ? [
          inBand(stretch, {
            check: 'air speed in band',
            question: 'Was the air stream as fast as the stage asks?',
            channel: HEAT_CHANNELS.air,
            values: steady(record.air),
            target: valueIn(programme.airSpeed, 'm/s'),
            band: parameters.airSpeedBand,
            share,
            unit: 'm/s',
            action: 'Check the fan and where the sensor stands. How a rim is cooled decides how hot it gets.',
          }),
        ]
      : []),
  ];
}

function inBand(stretch: Stretch, asked: Band): Finding {
  const { check, question, channel, values, target, band, share: wanted, unit } = asked;
  const { time } = stretch.features.record;
  const { braking } = stretch.features;
  const span = brakedSpan(stretch);
  if (!span)
    return {
      check: {
        check,
        question,
        outcome: 'not evaluated',
        finding: 'The brake was never on.',
        action: 'Read the check on the loading first.',
      },
    };

  let [inside, all, sum] = [0, 0, 0];
  for (let i = span.from; i <= span.last; i++) {
    if (!braking[i]) continue;
    all++;
    sum += values[i] as number;
    if (Math.abs((values[i] as number) - target) <= band * target) inside++;
  }
  const share = inside / all;
  const number = inUnit(unit);
  const finding = `${number(sum / all)} in the mean while braking; ${percent(share)} of it within ${percent(band)} of ${number(target)}, and the method asks for ${percent(wanted)}.`;
  if (share >= wanted) return { check: { check, question, outcome: 'pass', finding } };
  return {
    check: {
      check,
      question,
      outcome: 'fail',
      finding,
      action: asked.action,
      place: { channel, from: time[span.from] as number, to: time[span.last] as number },
    },
  };
}

function unknownStage({ passage }: Stretch): Finding {
  return {
    check: {
      check: 'stage',
      question: 'Which stage of the method is this?',
      outcome: 'not evaluated',
      finding:
        passage === undefined
          ? 'The method has several stages and the run names none, so it is not known what was asked when.'
          : `The method has no stage ${passage}.`,
      action: 'Have the run name its stages as passages, each with its number and start.',
    },
  };
}
