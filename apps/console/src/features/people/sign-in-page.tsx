import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useRef } from 'react';
import { seatTaken, waysQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { textOf } from './form-text.js';
import { rememberPlace } from './place-before.js';

/** Signing in: a name and a passphrase, at whatever address the person came to. */
export function SignInPage() {
  const queries = useQueryClient();
  const { data: ways } = useQuery(waysQuery);
  const form = useRef<HTMLFormElement>(null);
  const outside = useMutation({
    mutationFn: () => {
      const lab = form.current ? textOf(new FormData(form.current), 'lab').trim() : '';
      return send('POST /api/sign-in/outside', { body: lab === '' ? {} : { lab } });
    },
    onSuccess: ({ address }) => {
      rememberPlace();
      window.location.assign(address);
    },
  });
  const signIn = useMutation({
    mutationFn: (body: { lab?: string; person: string; passphrase: string }) => send('POST /api/sign-in', { body }),
    onSuccess: (me) => seatTaken(queries, me),
  });
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const lab = textOf(form, 'lab').trim();
    signIn.mutate({
      ...(lab === '' ? {} : { lab }),
      person: textOf(form, 'person').trim(),
      passphrase: textOf(form, 'passphrase'),
    });
  };
  return (
    <Sheet title="Sign in">
      <HeadStrip noun="Breakbook" name="Sign in" />
      <Section
        question="Who are you?"
        word="Sign in"
        aside="On the first start, names and passphrases were printed where Breakbook was started."
      >
        <form className="form" onSubmit={submit} ref={form}>
          {ways?.severalLabs && (
            <Field
              label="Lab"
              name="lab"
              autoComplete="organization"
              autoCapitalize="none"
              spellCheck={false}
              required
            />
          )}
          <Field
            label="Name to sign in with"
            name="person"
            autoComplete="username"
            autoCapitalize="none"
            spellCheck={false}
            required
          />
          <Field label="Passphrase" name="passphrase" type="password" autoComplete="current-password" required />
          <FormProblem error={signIn.error ?? outside.error} />
          <button className="action main" type="submit" disabled={signIn.isPending}>
            Sign in
          </button>
          {ways?.outside && (
            <button className="action" type="button" onClick={() => outside.mutate()} disabled={outside.isPending}>
              Sign in with {ways.outside.name}
            </button>
          )}
        </form>
      </Section>
    </Sheet>
  );
}
