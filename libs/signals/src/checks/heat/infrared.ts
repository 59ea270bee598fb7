import type { HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { HEAT_CHANNELS, NO_TEMPERATURE } from '../../features/heat.js';
import type { Stretch } from '../../features/heat-stretch.js';
import { runningMedian } from '../../features/running-median.js';
import { windowSamples } from '../../features/window-samples.js';
import { inUnit, seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';
import { longestApart } from '../longest-apart.js';

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

  const apart = longestApart(time, { from, last }, most, (i) => {
    const contact = features.track.map(({ filtered }) => filtered[i] as number).filter((one) => one > NO_TEMPERATURE);
    if (contact.length === 0 || (read[i] as number) <= NO_TEMPERATURE) return undefined;
    return Math.min(...contact.map((one) => Math.abs(one - (read[i] as number))));
  });
  if (apart.compared === 0)
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
  const finding = `They differ by at most ${kelvin(apart.largest)}, by more than ${kelvin(most)} for ${seconds(apart.longest)} at a stretch; the method lets that pass for ${seconds(longest)}.`;
  if (apart.longest <= longest) return [{ check: { ...named, outcome: 'pass', finding } }];
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
          from: time[apart.from] as number,
          to: time[apart.to] as number,
        },
      },
    },
  ];
}
