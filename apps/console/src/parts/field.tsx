import {
  type InputHTMLAttributes,
  type ReactNode,
  type SelectHTMLAttributes,
  type TextareaHTMLAttributes,
  useId,
} from 'react';
import { ProblemAnswer } from '../client/problem-answer.js';
import './field.css';

interface FieldProps extends Omit<InputHTMLAttributes<HTMLInputElement>, 'id' | 'className'> {
  label: string;
  hint?: ReactNode;
}

/** One thing to fill in: its name above, what helps below. */
export function Field({ label, hint, ...input }: FieldProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input id={id} aria-describedby={hint === undefined ? undefined : `${id}-hint`} {...input} />
      {hint !== undefined && (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}

interface AreaProps extends Omit<TextareaHTMLAttributes<HTMLTextAreaElement>, 'id' | 'className'> {
  label: string;
  hint?: ReactNode;
}

/** Something to say in several lines. */
export function TextArea({ label, hint, ...area }: AreaProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <textarea id={id} aria-describedby={hint === undefined ? undefined : `${id}-hint`} {...area} />
      {hint !== undefined && (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}

interface SelectProps extends Omit<SelectHTMLAttributes<HTMLSelectElement>, 'id' | 'className'> {
  label: string;
  options: readonly { value: string; word: string }[];
}

/** One of many, where a list of all of them would be too long. */
export function Select({ label, options, ...select }: SelectProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} {...select}>
        {options.map(({ value, word }) => (
          <option key={value} value={value}>
            {word}
          </option>
        ))}
      </select>
    </div>
  );
}

/** Why a form was not taken, and what to do; said aloud when it appears. */
export function FormProblem({ error }: { error: Error | null }) {
  return (
    <div role="alert" className="form-problem">
      {error && (
        <p>
          {error.message} {error instanceof ProblemAnswer && error.action}
        </p>
      )}
    </div>
  );
}
