import { useId } from 'react';
import './choice.css';

interface Option<T extends string> {
  value: T;
  word: string;
}

/** One of a few, by radio buttons that look like words on a line. */
export function Choice<T extends string>(given: {
  legend: string;
  options: readonly Option<T>[];
  chosen: T;
  onChoose: (value: T) => void;
}) {
  const { legend, options, chosen, onChoose } = given;
  const name = useId();
  return (
    <fieldset className="choice">
      <legend>{legend}</legend>
      {options.map(({ value, word }) => (
        <label key={value}>
          <input type="radio" name={name} checked={value === chosen} onChange={() => onChoose(value)} />
          <span>{word}</span>
        </label>
      ))}
    </fieldset>
  );
}
