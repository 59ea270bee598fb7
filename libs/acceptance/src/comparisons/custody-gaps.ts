import type { CustodyEvent, CustodyGap } from '@breakbook/lab';

/**
 * Where does the custody of an item not join up? From event to event: whoever gives it away must be who had it, a seal found
 * must be the one it was left under, and nothing happens before it was received or after it was given out. A gap is told as
 * it is; what it means for the comparison is for people to decide.
 */
export function custodyGaps(events: readonly CustodyEvent[]): CustodyGap[] {
  const specimens = [...new Set(events.map(({ specimen }) => specimen))];
  return specimens.flatMap((specimen) => {
    const own = events
      .filter((event) => event.specimen === specimen)
      .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));
    return gapsOf(specimen, own);
  });
}

function gapsOf(specimen: string, events: readonly CustodyEvent[]): CustodyGap[] {
  const gaps: CustodyGap[] = [];
  const [first] = events;
  if (first && first.step !== 'received')
    gaps.push({
      specimen,
      before: first.at,
      sentence: `Item ${specimen}: the first entry, of ${first.at}, is "${first.step}"; where it came from is not recorded.`,
    });
  let seal: string | undefined;
  events.forEach((event, index) => {
    const before = events[index - 1];
    const say = (sentence: string) =>
      gaps.push({
        specimen,
        ...(before ? { after: before.at } : {}),
        before: event.at,
        sentence: `Item ${specimen}: ${sentence}`,
      });
    const between = before ? `between ${before.at} and ${event.at}` : `at ${event.at}`;
    if (before) {
      const giver = event.from ?? (event.step === 'given out' ? before.to : event.to);
      if (before.step === 'given out' && event.step !== 'received')
        say(
          `it was given out at ${before.at}, and at ${event.at} is "${event.step}"; how it came back is not recorded.`,
        );
      else if (giver !== before.to)
        say(
          event.from === undefined
            ? `${before.to} had it, then ${event.to}, and no hand-over is recorded ${between}.`
            : `${before.to} had it, and ${event.from} gave it away; who had it is not recorded ${between}.`,
        );
    }
    const found = event.step === 'sealed' ? undefined : event.seal;
    if (seal !== undefined && event.step === 'sealed' && event.seal !== seal)
      say(`a new seal was put on while seal ${seal} was on it; that this was opened is not recorded ${between}.`);
    if (seal !== undefined && found !== undefined && found !== seal)
      say(`it was left under seal ${seal} and found under seal ${found} ${between}.`);
    if (seal !== undefined && found === undefined && OPENING.has(event.step))
      say(`it was left under seal ${seal}; that the seal was found whole is not recorded ${between}.`);
    seal = sealAfter(event, seal);
  });
  return gaps;
}

/** Steps for which a seal is broken. */
const OPENING = new Set<CustodyEvent['step']>(['seal opened', 'examined', 'tested']);

function sealAfter({ step, seal }: CustodyEvent, before: string | undefined): string | undefined {
  if (OPENING.has(step)) return undefined;
  if (step === 'given out') return undefined;
  return seal ?? before;
}
