import type { PlanInWords } from '@breakbook/lab';
import { usePrint } from './units/reader.js';

/** What a plan claims and asks for, sentence by sentence, as the service words it. */
export function PlanSaid({ of: { claim, lines } }: { of: PlanInWords }) {
  const { tell } = usePrint();
  return (
    <>
      <h3>The claim</h3>
      <ul className="notes">
        {claim.map((one) => (
          <li key={one}>
            <bdi>{tell(one)}</bdi>
          </li>
        ))}
      </ul>
      {lines.map(({ line, title, says }) => (
        <section key={line}>
          <h3>
            Line {line}: <bdi>{title}</bdi>
          </h3>
          <ul className="notes">
            {says.map((one) => (
              <li key={one}>
                <bdi>{tell(one)}</bdi>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}
