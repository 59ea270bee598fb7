import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';

/**
 * Asks for the passphrase where something was refused for want of it, then does that thing. What was filled in stays as it
 * is. Stands beside the form of the thing itself, for forms do not hold forms.
 */
export function PassphraseAgain({ error, onGiven }: { error: Error | null; onGiven: () => void }) {
  const [passphrase, setPassphrase] = useState('');
  const give = useMutation({
    mutationFn: (body: { passphrase: string }) => send('POST /api/me/again', { body }),
    onSuccess: onGiven,
    // Right or wrong, it does not stay on the screen.
    onSettled: () => setPassphrase(''),
  });
  if (!needsPassphrase(error)) return null;
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        give.mutate({ passphrase });
      }}
    >
      <Field
        label="Your passphrase, once more"
        hint="This is done in your name, so it is asked for where it was last given more than five minutes ago."
        type="password"
        autoComplete="current-password"
        autoFocus
        required
        value={passphrase}
        onChange={({ target }) => setPassphrase(target.value)}
      />
      <FormProblem error={give.error} />
      <button className="action main" type="submit" disabled={give.isPending}>
        Go on
      </button>
    </form>
  );
}
