import type { Step } from '@breakbook/lab';
import { printDeclared, printSignificant } from '@breakbook/units';
import './steps.css';
import type { Beside } from './units/print-value.js';
import { usePrint } from './units/reader.js';

interface StepsProps {
  steps: readonly Step[];
  unit: string;
  /** Numbers of the record that are in `unit`; a step's number that is one of them is shown with it. */
  quantities: readonly number[];
}

/** A bound and what it leaves to its limit are rounded down wherever they stand. */
const STEP_PRINT: Record<string, Beside> = {
  bound: { bound: true },
  difference: { bound: true, signed: true },
};

/** How a number came about: question, answer, the numbers the answer was made from, by which formula and from which source. */
export function Steps({ steps, unit, quantities }: StepsProps) {
  const { tell, quantity, choice } = usePrint();
  const written = (name: string, value: number | string) => {
    if (typeof value === 'string') return tell(value);
    if (quantities.includes(value)) return quantity(value, unit, STEP_PRINT[name] ?? {});
    const isShort = Number(value.toPrecision(5)) === value;
    if (isShort || choice.digits === 'full') return printDeclared(value);
    return printSignificant(value, 5);
  };
  if (steps.length === 0) return <p className="quiet">No step is recorded for this number.</p>;
  return (
    <ol className="steps">
      {steps.map(({ question, answer, numbers, formula, source }) => (
        <li key={question}>
          <p className="asked">{question}</p>
          <p>{tell(answer)}</p>
          {Object.keys(numbers).length > 0 && (
            <dl>
              {Object.entries(numbers).map(([name, value]) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{written(name, value)}</dd>
                </div>
              ))}
            </dl>
          )}
          {formula !== undefined && (
            <p className="small">
              By <span className="whole">{formula}</span>
            </p>
          )}
          {source !== undefined && <p className="quiet small">Source: {source}</p>}
        </li>
      ))}
    </ol>
  );
}
