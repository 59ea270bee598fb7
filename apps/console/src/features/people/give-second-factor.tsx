import { useMutation, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { secondFactorQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { answerWithPasskey } from './passkey.js';

/** A code, or a passkey where there is one. */
export function GiveSecondFactor({ onGiven }: { onGiven: () => void }) {
  const [code, setCode] = useState('');
  const { data: own } = useQuery(secondFactorQuery);
  const give = useMutation({
    mutationFn: (body: { code: string }) => send('POST /api/me/second-factor', { body }),
    onSuccess: onGiven,
    onSettled: () => setCode(''),
  });
  const passkey = useMutation({ mutationFn: answerWithPasskey, onSuccess: onGiven });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        give.mutate({ code });
      }}
    >
      <CodeField value={code} onCode={setCode} autoFocus />
      <FormProblem error={give.error ?? passkey.error} />
      <button className="action main" type="submit" disabled={give.isPending}>
        Go on
      </button>
      {own !== undefined && own.passkeys.length > 0 && (
        <button className="action" type="button" onClick={() => passkey.mutate()} disabled={passkey.isPending}>
          Use a passkey
        </button>
      )}
    </form>
  );
}

interface CodeFieldProps {
  value: string;
  onCode: (code: string) => void;
  autoFocus?: boolean;
  /** Left empty, a passkey is asked for. */
  orPasskey?: boolean;
}

/** Where a code of the generator is typed, or one of those written down. */
export function CodeField({ value, onCode, autoFocus = false, orPasskey = false }: CodeFieldProps) {
  return (
    <Field
      label="Code"
      hint={`Six digits from your code generator, or one of your recovery codes. Each is taken once.${
        orPasskey ? ' Left empty, your passkey is asked for.' : ''
      }`}
      autoComplete="one-time-code"
      autoCapitalize="none"
      spellCheck={false}
      autoFocus={autoFocus}
      required={!orPasskey}
      value={value}
      onChange={({ target }) => onCode(target.value)}
    />
  );
}
