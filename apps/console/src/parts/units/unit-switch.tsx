import { unitSymbol } from '@breakbook/units';
import { Choice } from '../choice.js';
import { useReader } from './reader.js';
import { READER_UNITS, type Switched, type UnitChoice } from './reader-unit.js';
import './unit-switch.css';

const LEGENDS: Record<Switched, string> = {
  pressure: 'Pressures in',
  temperature: 'Temperatures in',
  energy: 'Energies in',
  force: 'Forces in',
};

/** Changes every quantity of a kind on the sheet at once, and nothing that is stored. */
export function UnitSwitch() {
  return (
    <details className="units">
      <summary>Units</summary>
      <div>
        {Object.entries(LEGENDS).map(([quantity, legend]) => (
          <OneUnit key={quantity} quantity={quantity as Switched} legend={legend} />
        ))}
      </div>
    </details>
  );
}

function OneUnit<Quantity extends Switched>({ quantity, legend }: { quantity: Quantity; legend: string }) {
  const { choice, choose } = useReader();
  const units: readonly UnitChoice[Quantity][] = READER_UNITS[quantity];
  return (
    <Choice
      legend={legend}
      options={units.map((unit) => ({ value: unit, word: unit === 'recorded' ? 'as recorded' : unitSymbol(unit) }))}
      chosen={choice.units[quantity]}
      onChoose={(unit) => choose({ units: { ...choice.units, [quantity]: unit } })}
    />
  );
}

/** Rounded to the uncertainty, or every digit that is stored. */
export function DigitsSwitch() {
  const { choice, choose } = useReader();
  return (
    <Choice
      legend="Digits"
      options={[
        { value: 'rounded', word: 'rounded' },
        { value: 'full', word: 'all' },
      ]}
      chosen={choice.digits}
      onChoose={(digits) => choose({ digits })}
    />
  );
}
