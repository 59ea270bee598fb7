import { unitSymbol } from '@breakbook/units';
import { Choice } from '../choice.js';
import { useReader } from './reader.js';
import { PRESSURE_UNITS } from './reader-unit.js';

/** Changes every pressure on the sheet at once, and nothing that is stored. */
export function UnitSwitch() {
  const { choice, choose } = useReader();
  return (
    <Choice
      legend="Pressures in"
      options={PRESSURE_UNITS.map((unit) => ({ value: unit, word: unitSymbol(unit) }))}
      chosen={choice.pressure}
      onChoose={(pressure) => choose({ pressure })}
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
