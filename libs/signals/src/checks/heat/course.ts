import type { HeatParameters } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import { BRAKING_POWER } from '../../features/heat.js';
import { interruptionsOf } from '../../features/heat-course.js';
import { brakedSpan, ranItsTime, type Stretch } from '../../features/heat-stretch.js';
import { seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';

/** Was the brake let go on the way, oftener or for longer than the method permits? */
export function interruptions(stretch: Stretch, { interruptions: permitted }: HeatParameters): Finding {
  const named = { check: 'interruptions', question: 'Was the brake kept on?' };
  const found = interruptionsOf(stretch);
  const longestPermitted = valueIn(permitted.longest, 's');
  const longest = found.reduce((most, one) => (one.to - one.from > most.to - most.from ? one : most), {
    from: 0,
    to: 0,
  });
  const finding =
    found.length === 0
      ? 'Without interruption.'
      : `${found.length} interruption${found.length === 1 ? '' : 's'}, the longest ${seconds(longest.to - longest.from)}; the method permits ${permitted.most} of at most ${seconds(longestPermitted)}.`;
  // The ends of an interruption lie between two samples each.
  if (
    found.length <= permitted.most &&
    longest.to - longest.from <= longestPermitted + 2 * stretch.features.record.steps.period
  )
    return { check: { ...named, outcome: 'pass', finding } };
  return {
    check: {
      ...named,
      outcome: 'fail',
      finding,
      action: 'Find out why the brake came off. A rim that cooled on the way was not loaded as the method asks.',
      place: { channel: BRAKING_POWER, from: longest.from, to: longest.to },
    },
  };
}

/** Did the stage last as long as its programme? A stage in which something failed may end early. */
export function stageLength(stretch: Stretch, mayEndEarly: boolean): Finding[] {
  const duration = stretch.programme && valueIn(stretch.programme.duration, 's');
  const ran = ranItsTime(stretch, duration);
  const span = brakedSpan(stretch);
  if (ran === undefined || duration === undefined || !span) return [];
  const named = { check: 'stage length', question: 'Did the stage last as long as its programme?' };
  const { time } = stretch.features.record;
  const [from, to] = [time[span.from] as number, time[span.last] as number];
  const finding = `${seconds(to - from)} from the first braking to the last; the programme asks for ${seconds(duration)}.`;
  if (ran || mayEndEarly) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action: 'Find out why it ended early. What was survived is at least what was reached.',
        place: { channel: BRAKING_POWER, from, to },
      },
    },
  ];
}
