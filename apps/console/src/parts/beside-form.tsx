import type { ReactNode } from 'react';
import { ProblemsBeside, ProblemsElsewhere } from './problems-beside.js';

interface BesideFormProps {
  /** What is sent, as `useSent` has it. */
  sent: { error: Error | null; isPending: boolean; mutate: (what: undefined) => void };
  button: string;
  /** Where the content stands in the body that is sent: "/content". */
  within?: string;
  children: ReactNode;
}

/** A form that sends, with what was refused beside its fields, or above its button where it is of none. */
export function BesideForm({ sent, button, within = '', children }: BesideFormProps) {
  return (
    <form
      className="form wide"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        sent.mutate(undefined);
      }}
    >
      <ProblemsBeside error={sent.error} within={within}>
        {children}
        <ProblemsElsewhere />
        <button type="submit" className="action" disabled={sent.isPending}>
          {button}
        </button>
      </ProblemsBeside>
    </form>
  );
}
