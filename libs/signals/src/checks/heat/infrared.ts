import { type HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { HEAT_CHANNELS, NO_TEMPERATURE } from '../../features/heat.js';
import { type Stretch } from '../../features/heat-stretch.js';
import { runningMedian } from '../../features/running-median.js';
import { windowSamples } from '../../features/window-samples.js';
import { inUnit, seconds } from '../../features/words.js';
import { type Finding } from '../finding.js';

const kelvin = inUnit('K');

/**
 * Does the infrared reading agree with contact? Held against the nearer of the contact sensors at each moment, both by the
 * running median of the method's window. A bare track reflects, and dust of pads changes what it gives off.
 *
 * Common practice, no source; how far and for how long they may differ is the method's.
 */
export function infraredAgrees({ features, from, last }: Stretch, parameters: HeatParameters): Finding[] {
  const { infrared, time, steps } = features.record;
  const { infraredDifference, temperatureWindow } = parameters;
  if (!infrared || !infraredDifference) return [];
  const named = { check: 'infrared', question: 'Does the infrared temperature of the track agree with contact?' };
  const read = runningMedian(infrared, windowSamples(valueIn(temperatureWindow, 's'), steps.period));
  const [most, longest] = [valueIn(infraredDifference.most, 'K'), valueIn(infraredDifference.longest, 's')];

  let [largest, worst, worstFrom, worstTo, compared] = [0, 0, from, from, 0];
  let begins: number | undefined;
  for (let i = from; i <= last; i++) {
    const contact = features.track.map(({ filtered }) => filtered[i] as number).filter((one) => one > NO_TEMPERATURE);
    if (contact.length === 0 || (read[i] as number) <= NO_TEMPERATURE) {
      begins = undefined;
      continue;
    }
    compared++;
    const off = Math.min(...contact.map((one) => Math.abs(one - (read[i] as number))));
    largest = Math.max(largest, off);
    if (off <= most) begins = undefined;
    else {
      begins ??= i;
      const lasted = (time[i] as number) - (time[begins] as number);
      if (lasted > worst) [worst, worstFrom, worstTo] = [lasted, begins, i];
    }
  }
  if (compared === 0)
    return [
      {
        check: {
          ...named,
          outcome: 'not evaluated',
          finding: 'No moment has both readings.',
          action: 'Connect the infrared sensor and a contact sensor.',
        },
      },
    ];
  const finding = `They differ by at most ${kelvin(largest)}, by more than ${kelvin(most)} for ${seconds(worst)} at a stretch; the method lets that pass for ${seconds(longest)}.`;
  if (worst <= longest) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action:
          'Check the emissivity that is set, where the spot lies, and whether dust or a bare track reflects. Temperatures of this run are those of the contact sensors.',
        place: {
          channel: HEAT_CHANNELS.infrared,
          from: time[worstFrom] as number,
          to: time[worstTo] as number,
        },
      },
    },
  ];
}
