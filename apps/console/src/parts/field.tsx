import { type InputHTMLAttributes, type ReactNode, useId } from 'react';
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
