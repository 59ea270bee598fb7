import { type Step } from '@breakbook/lab';
import { printDeclared, printSignificant } from '@breakbook/units';
import './steps.css';
import { usePrint } from './units/reader.js';

interface StepsProps {
  steps: readonly Step[];
  unit: string;
  /** Numbers of the record that are in `unit`; a step's number that is one of them is shown with it. */
  quantities: readonly number[];
}

/** How a number came about: question, answer, and the numbers the answer was made from. */
export function Steps({ steps, unit, quantities }: StepsProps) {
  const { tell, quantity, choice } = usePrint();
  const written = (value: number | string) => {
    if (typeof value === 'string') return tell(value);
    if (quantities.includes(value)) return quantity(value, unit);
    if (Number.isInteger(value) || choice.digits === 'full') return printDeclared(value);
    return printSignificant(value, 5);
  };
  if (steps.length === 0) return <p className="quiet">No step is recorded for this number.</p>;
  return (
    <ol className="steps">
      {steps.map(({ question, answer, numbers }) => (
        <li key={question}>
          <p className="asked">{question}</p>
          <p>{tell(answer)}</p>
          {Object.keys(numbers).length > 0 && (
            <dl>
              {Object.entries(numbers).map(([name, value]) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{written(value)}</dd>
                </div>
              ))}
            </dl>
          )}
        </li>
      ))}
    </ol>
  );
}
