import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent } from 'react';
import { seatTaken } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { textOf } from './form-text.js';

/** Signing in: a name and a passphrase, at whatever address the person came to. */
export function SignInPage() {
  const queries = useQueryClient();
  const signIn = useMutation({
    mutationFn: (body: { person: string; passphrase: string }) => send('POST /api/sign-in', { body }),
    onSuccess: (me) => seatTaken(queries, me),
  });
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    signIn.mutate({ person: textOf(form, 'person').trim(), passphrase: textOf(form, 'passphrase') });
  };
  return (
    <Sheet title="Sign in">
      <HeadStrip noun="Breakbook" name="Sign in" />
      <Section
        question="Who are you?"
        word="Sign in"
        aside="On the first start, names and passphrases were printed where Breakbook was started."
      >
        <form className="form" onSubmit={submit}>
          <Field
            label="Name to sign in with"
            name="person"
            autoComplete="username"
            autoCapitalize="none"
            spellCheck={false}
            required
          />
          <Field label="Passphrase" name="passphrase" type="password" autoComplete="current-password" required />
          <FormProblem error={signIn.error} />
          <button className="action main" type="submit" disabled={signIn.isPending}>
            Sign in
          </button>
        </form>
      </Section>
    </Sheet>
  );
}
