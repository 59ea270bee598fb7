import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { Myself } from '../../client/answers.js';
import { meQuery, sessionsQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { textOf } from './form-text.js';

/** Chooses an own passphrase in place of another, which `current` names. */
export function OwnPassphraseForm({ me, current }: { me: Myself; current: string }) {
  const queries = useQueryClient();
  const [unlike, setUnlike] = useState(false);
  const choose = useMutation({
    mutationFn: (body: { current: string; passphrase: string }) => send('POST /api/me/passphrase', { body }),
    onSuccess: async () => {
      await queries.invalidateQueries({ queryKey: sessionsQuery.queryKey });
      await queries.invalidateQueries({ queryKey: meQuery.queryKey });
    },
  });
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const passphrase = textOf(form, 'passphrase');
    setUnlike(passphrase !== textOf(form, 'repeated'));
    if (passphrase === textOf(form, 'repeated')) choose.mutate({ current: textOf(form, 'current'), passphrase });
  };
  const error = unlike ? new Error('The two new passphrases are not alike. Type the same one twice.') : choose.error;
  return (
    <form className="form" onSubmit={submit}>
      <input type="text" name="username" autoComplete="username" value={me.person} readOnly hidden />
      <Field label={current} name="current" type="password" autoComplete="current-password" required />
      <Field
        label="Own passphrase"
        name="passphrase"
        type="password"
        autoComplete="new-password"
        required
        hint="At least 15 characters. Take several words that do not belong together; spaces are welcome, no kind of character is needed."
      />
      <Field label="Own passphrase, once more" name="repeated" type="password" autoComplete="new-password" required />
      <FormProblem error={error} />
      {choose.isSuccess && <p role="status">From now on you sign in with the new one.</p>}
      <button className="action main" type="submit" disabled={choose.isPending}>
        Choose this passphrase
      </button>
    </form>
  );
}
