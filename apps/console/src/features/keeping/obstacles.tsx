import type { KeptSpecimen } from '../../client/answers.js';
import { day } from '../../parts/moment.js';

/** What keeps remnants from being disposed of, each on a line of its own. */
export function Obstacles({ of }: { of: KeptSpecimen['obstacles'] }) {
  if (of.length === 0) return <>nothing is in the way</>;
  return (
    <ul className="notes">
      {of.map(({ what, action }) => (
        <li key={what}>
          {what} {action}
        </li>
      ))}
    </ul>
  );
}

/** Until which day something is kept, in words. */
export function keptUntilInWords({ state, keptUntil, saidOf }: KeptSpecimen): string {
  if (state === 'disposed') return 'disposed of';
  return keptUntil === undefined ? 'not said' : `${day(keptUntil)}${saidOf === 'specimen' ? ', said of it alone' : ''}`;
}
