import { type ReactNode, useId } from 'react';
import './slider.css';

/** One number between two ends: its name and value above, a slider below. Arrow keys move it by a step. */
export function Slider(given: {
  label: string;
  value: number;
  min: number;
  max: number;
  step: number;
  /** The value as it is read. */
  says: string;
  hint?: ReactNode;
  onChange: (value: number) => void;
}) {
  const { label, value, min, max, step, says, hint, onChange } = given;
  const id = useId();
  return (
    <div className="slider">
      <p className="named">
        <label htmlFor={id}>{label}</label> <output htmlFor={id}>{says}</output>
      </p>
      <input
        id={id}
        type="range"
        {...{ min, max, step, value }}
        aria-valuetext={says}
        aria-describedby={hint === undefined ? undefined : `${id}-hint`}
        onChange={(event) => onChange(Number(event.target.value))}
      />
      {hint !== undefined && (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}
