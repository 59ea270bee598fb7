import { inUnit, seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';
import type { ChannelRecord } from './channel-record.js';

/** Was this thermocouple connected throughout? Only temperatures are asked. */
export function openCircuit(
  { record: { channel, kind, unit, indicated }, open }: { record: ChannelRecord; open?: Uint8Array },
  time: Float64Array,
): Finding[] {
  if (kind !== 'temperature') return [];
  const named = { check: 'open circuit', question: `Was the thermocouple of ${channel} connected throughout?` };
  if (!open)
    return [
      {
        check: { ...named, outcome: 'pass', finding: 'It never shows at once what instruments show for an open one.' },
      },
    ];
  const [first, last] = [open.indexOf(1), open.lastIndexOf(1)];
  let samples = 0;
  for (const one of open) samples += one;
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding: `It shows ${inUnit(unit)(indicated[first] as number)} at once at ${seconds(time[first] as number)}, as instruments do for an open thermocouple, ${samples === 1 ? 'for one reading' : `for ${samples} readings`} in all; none of them is taken for a temperature.`,
        action: 'Check plug and junction. What this sensor would have shown meanwhile is not known.',
        place: { channel, from: time[first] as number, to: time[last] as number },
      },
      signal: 'signal.open-circuit',
    },
  ];
}
