import type { ReactNode } from 'react';
import { needsPassphrase } from '../../client/read.js';
import { FormProblem } from '../../parts/field.js';
import { PassphraseAgain } from './passphrase-again.js';

interface AgainFormProps {
  /** What is sent, as `useSent` has it. */
  sent: { error: Error | null; isPending: boolean; mutate: (what: undefined) => void };
  button: string;
  /** Is what is filled in fit to be sent? */
  whole: boolean;
  children: ReactNode;
}

/** A form whose act asks for the passphrase again where that was given too long ago. */
export function AgainForm({ sent, button, whole, children }: AgainFormProps) {
  return (
    <>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          sent.mutate(undefined);
        }}
      >
        {children}
        <FormProblem error={needsPassphrase(sent.error) ? null : sent.error} />
        <button type="submit" className="action" disabled={!whole || sent.isPending}>
          {button}
        </button>
      </form>
      <PassphraseAgain error={sent.error} onGiven={() => sent.mutate(undefined)} />
    </>
  );
}
