import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { secondFactorQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { CodeField } from './give-second-factor.js';
import { useMe } from './me.js';
import { answerWithPasskey } from './passkey.js';

interface PassphraseAgainProps {
  error: Error | null;
  onGiven: () => void;
  /** What was refused is adding a second factor, for which none is needed yet. */
  adding?: boolean;
}

/**
 * Asks for passphrase and second factor where something was refused for want of them, then does that thing. What was
 * filled in stays as it is. Stands beside the form of the thing itself, for forms do not hold forms.
 */
export function PassphraseAgain({ error, onGiven, adding = false }: PassphraseAgainProps) {
  const { secondFactor, secondFactorNeeded } = useMe();
  if (!needsPassphrase(error)) return null;
  if (secondFactor === 'none' && secondFactorNeeded !== 'nothing' && !adding)
    return (
      <p>
        With your duties this is done with a second factor beside the passphrase, and you have none yet.{' '}
        <Link to="/me">Add one on your own page</Link>, then come back and do this again.
      </p>
    );
  return <Ask withSecond={secondFactor !== 'none'} onGiven={onGiven} />;
}

function Ask({ withSecond, onGiven }: { withSecond: boolean; onGiven: () => void }) {
  const queries = useQueryClient();
  const [passphrase, setPassphrase] = useState('');
  const [code, setCode] = useState('');
  const { data: own } = useQuery({ ...secondFactorQuery, enabled: withSecond });
  const hasPasskey = own !== undefined && own.passkeys.length > 0;
  const give = useMutation({
    mutationFn: async (by: 'code' | 'passkey') => {
      await send('POST /api/me/again', { body: { passphrase } });
      if (!withSecond) return;
      if (by === 'passkey') await answerWithPasskey();
      else await send('POST /api/me/second-factor', { body: { code } });
    },
    onSuccess: () => {
      void queries.invalidateQueries({ queryKey: secondFactorQuery.queryKey });
      onGiven();
    },
    // Right or wrong, they do not stay on the screen.
    onSettled: () => {
      setPassphrase('');
      setCode('');
    },
  });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        give.mutate(hasPasskey && code === '' ? 'passkey' : 'code');
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
      {withSecond && <CodeField value={code} onCode={setCode} orPasskey={hasPasskey} />}
      <FormProblem error={give.error} />
      <button className="action main" type="submit" disabled={give.isPending}>
        Go on
      </button>
    </form>
  );
}
