import type { BurstFeatures } from '../features/burst.js';
import { kPa, seconds } from '../features/words.js';
import type { Finding } from './finding.js';

/** Was each programmed hold kept for as long as the method asks? One check per hold. */
export function holdChecks({ holds }: BurstFeatures, channel: string): Finding[] {
  return holds.map(({ name, asked, band, found }) => {
    const named = { check: 'hold', question: `Was "${name}" held for ${seconds(asked)}?` };
    const between = `${kPa(band.low)} and ${kPa(band.high)}`;
    if (!found)
      return {
        check: {
          ...named,
          outcome: 'flag' as const,
          finding: `The pressure was never between ${between}.`,
          action: 'Find out whether the run ended before the hold or the programme had none.',
        },
      };
    const finding = `${seconds(found.seconds)} between ${between}, from ${seconds(found.entry)} to ${seconds(found.exit)}; mean ${kPa(found.mean)}.`;
    if (found.seconds >= asked) return { check: { ...named, outcome: 'pass' as const, finding } };
    return {
      check: {
        ...named,
        outcome: 'flag' as const,
        finding,
        action:
          'Look why the hold ended early. A part that let go in it is a result; a programme that left the band is not one of the method.',
        place: { channel, from: found.entry, to: found.exit },
      },
    };
  });
}
