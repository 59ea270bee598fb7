import { type ReactNode, useId } from 'react';
import './picks.css';

interface PicksProps<T extends string> {
  legend: string;
  options: readonly { value: T; word: ReactNode; hint?: ReactNode }[];
  picked: readonly T[];
  onPick: (picked: T[]) => void;
  /** Any number of them, instead of one. */
  several?: boolean;
}

/** Options that need their meaning beside them: one under another, each a whole line to touch. */
export function Picks<T extends string>({ legend, options, picked, onPick, several = false }: PicksProps<T>) {
  const name = useId();
  const after = (value: T) => {
    if (!several) return [value];
    return picked.includes(value) ? picked.filter((one) => one !== value) : [...picked, value];
  };
  return (
    <fieldset className="picks">
      <legend>{legend}</legend>
      {options.map(({ value, word, hint }) => (
        <label key={value}>
          <input
            type={several ? 'checkbox' : 'radio'}
            name={name}
            checked={picked.includes(value)}
            onChange={() => onPick(after(value))}
          />
          <span>
            {word}
            {hint !== undefined && <span className="hint">{hint}</span>}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
