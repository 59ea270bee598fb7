import { isNotEvaluated, type LossOfPressure } from '@breakbook/lab';
import { sameDimension, valueIn } from '@breakbook/units';
import { median } from 'simple-statistics';
import type { BurstSource } from '../features/burst-source.js';
import { mediumOf, pressureVolumeSlope } from '../features/burst-volume.js';
import { firstAt } from '../features/vented-zero.js';
import { inUnit } from '../features/words.js';
import type { Finding } from './finding.js';
import { lossProposed } from './loss-proposed.js';

const celsius = inUnit('Cel');

/** What a method may ask beside the trace of the pressure: temperatures, a part bled of air, how the pressure was lost. */
export function burstConditions(source: BurstSource, examined: LossOfPressure | undefined): Finding[] {
  return [
    ...temperatures(source),
    ...(source.features.pressurised ? [...airBleed(source), ...lossProposed(source, examined)] : []),
  ];
}

/** Were room and medium as warm as the method asks? */
function temperatures(source: BurstSource): Finding[] {
  const band = source.method.parameters.temperature;
  if (!band) return [];
  const [low, high] = [valueIn(band.from, 'Cel'), valueIn(band.to, 'Cel')];
  const asked = `the method asks for ${celsius(low)} to ${celsius(high)}`;
  const medium = mediumOf(source);
  return (
    [
      ['room', ['room temperature']],
      ['medium', ['medium temperature', ...(isNotEvaluated(medium) ? [] : [`${medium} temperature`])]],
    ] as const
  ).map(([what, conditions]): Finding => {
    const named = { check: `${what} temperature`, question: `Was the ${what} as warm as the method asks?` };
    const noted = temperatureOf(source, `${what}Temperature`, conditions);
    if (noted === undefined)
      return {
        check: {
          ...named,
          outcome: 'not evaluated',
          finding: `Nobody noted how warm the ${what} was; ${asked}.`,
          action: `Record a channel ${what}Temperature, key one reading, or note it as the condition "${conditions.at(-1)}".`,
        },
      };
    const finding = `${celsius(noted.value)}, ${noted.from}; ${asked}.`;
    if (noted.value >= low && noted.value <= high) return { check: { ...named, outcome: 'pass', finding } };
    return {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action: 'Decide whether it matters: resin and rubber are weaker when warm, and air dissolves when cold.',
      },
    };
  });
}

/** The temperature of a channel during the loading, else the reading keyed, else the condition noted; Cel. */
function temperatureOf(
  { beside, keyed, conditions, time, features }: BurstSource,
  name: string,
  notedAs: readonly string[],
): { value: number; from: string } | undefined {
  const channel = beside.find((one) => one.channel === name);
  const readings = channel?.values.subarray(0, firstAt(channel.time, time[features.loadedTo] as number) + 1);
  if (readings && readings.length > 0)
    return { value: median(Array.from(readings)), from: 'in the middle of what was recorded' };
  const read = keyed(name, { kind: 'temperature', unit: 'Cel' }).map(({ value }) => value);
  if (read.length > 0) return { value: median(read), from: 'as keyed' };
  for (const key of notedAs) {
    const condition = conditions[key];
    if (typeof condition === 'object' && sameDimension(condition.unit, 'Cel'))
      return { value: valueIn(condition, 'Cel'), from: `noted as "${key}"` };
  }
  return undefined;
}

/** Was the part bled of air? Left out where a gas presses. */
function airBleed(source: BurstSource): Finding[] {
  const asked = source.method.parameters.airBleed;
  const medium = mediumOf(source);
  if (!asked || medium === 'air' || medium === 'nitrogen') return [];
  const named = { check: 'air bleed', question: 'Was the part bled of air?' };
  const found = pressureVolumeSlope(source, asked);
  if (isNotEvaluated(found))
    return [
      {
        check: {
          ...named,
          outcome: 'not evaluated',
          finding: `How fast the pressure rises with the volume is not known: ${found.notEvaluated.because}.`,
          action: `See to it that ${found.notEvaluated.possibleIf}.`,
        },
      },
    ];
  const slope = inUnit('kPa/mL');
  const least = valueIn(asked.least, 'kPa/mL');
  const finding = `The pressure rises by ${slope(found.slope)} pumped; the method asks for ${slope(least)} or more.`;
  if (found.slope >= least) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'fail',
        finding,
        action:
          'Bleed part, hose and pump at their highest point: trapped air makes it a test with gas, and a dangerous one.',
        place: {
          channel: 'rimPressure',
          from: source.time[found.from] as number,
          to: source.time[found.to] as number,
        },
      },
    },
  ];
}
