import {
  type InputHTMLAttributes,
  type ReactNode,
  type SelectHTMLAttributes,
  type TextareaHTMLAttributes,
  useId,
} from 'react';
import { ProblemAnswer } from '../client/problem-answer.js';
import './field.css';
import { useProblemsAt } from './problems-beside.js';

/** Where what is filled in stands in the body that is sent; what is refused of it is told beside it. */
interface Placed {
  at?: string;
}

interface FieldProps extends Omit<InputHTMLAttributes<HTMLInputElement>, 'id' | 'className'>, Placed {
  label: string;
  hint?: ReactNode;
}

/** One thing to fill in: its name above, what helps below. */
export function Field({ label, hint, at, ...input }: FieldProps) {
  const { id, told, below } = useBelow(hint, at);
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input id={id} {...told} {...input} />
      {below}
    </div>
  );
}

interface AreaProps extends Omit<TextareaHTMLAttributes<HTMLTextAreaElement>, 'id' | 'className'>, Placed {
  label: string;
  hint?: ReactNode;
}

/** Something to say in several lines. */
export function TextArea({ label, hint, at, ...area }: AreaProps) {
  const { id, told, below } = useBelow(hint, at);
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <textarea id={id} {...told} {...area} />
      {below}
    </div>
  );
}

interface SelectProps extends Omit<SelectHTMLAttributes<HTMLSelectElement>, 'id' | 'className'>, Placed {
  label: string;
  hint?: ReactNode;
  options: readonly { value: string; word: string }[];
}

/** One of many, where a list of all of them would be too long. */
export function Select({ label, options, hint, at, ...select }: SelectProps) {
  const { id, told, below } = useBelow(hint, at);
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} {...told} {...select}>
        {options.map(({ value, word }) => (
          <option key={value} value={value}>
            {word}
          </option>
        ))}
      </select>
      {below}
    </div>
  );
}

/** What stands below a field: what helps to fill it in, and what was refused of it. */
function useBelow(hint: ReactNode, at: string | undefined) {
  const id = useId();
  const problems = useProblemsAt(at);
  const hasHint = hint !== undefined;
  const said = [...(hasHint ? [`${id}-hint`] : []), ...(problems.length > 0 ? [`${id}-refused`] : [])];
  return {
    id,
    told: {
      'aria-describedby': said.length === 0 ? undefined : said.join(' '),
      'aria-invalid': problems.length > 0 || undefined,
    },
    below: (
      <>
        {hasHint && (
          <p className="hint" id={`${id}-hint`}>
            {hint}
          </p>
        )}
        <Refused id={`${id}-refused`} problems={problems} />
      </>
    ),
  };
}

function Refused({ id, problems }: { id?: string; problems: readonly string[] }) {
  if (problems.length === 0) return null;
  return (
    <div className="form-problem" id={id}>
      {problems.map((one) => (
        <p key={one}>{one}</p>
      ))}
    </div>
  );
}

/** What was refused of several fields together, told above them. */
export function RefusedAt({ at }: { at: string }) {
  return <Refused problems={useProblemsAt(at)} />;
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
