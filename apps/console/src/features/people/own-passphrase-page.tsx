import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { type Myself } from '../../client/answers.js';
import { meQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { HeadStrip, Section, Sheet } from '../../parts/sheet/sheet.js';
import { textOf } from './form-text.js';
import { SignOut } from './signed-in-person.js';

/** Whoever was given a passphrase chooses an own one first: what somebody else has seen signs nothing. */
export function OwnPassphrasePage({ me }: { me: Myself }) {
  const queries = useQueryClient();
  const [unlike, setUnlike] = useState(false);
  const choose = useMutation({
    mutationFn: (body: { current: string; passphrase: string }) => send('POST /api/me/passphrase', { body }),
    onSuccess: () => queries.invalidateQueries({ queryKey: meQuery.queryKey }),
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
    <main className="before">
      <Sheet title="Own passphrase">
        <HeadStrip
          noun="Breakbook"
          name="Choose your own passphrase"
          sentence="The one you signed in with was given to you, so somebody else has seen it."
          next="everything else opens once you have one of your own."
          actions={<SignOut />}
          facts={[
            { term: 'Signed in', says: <bdi>{me.name}</bdi> },
            { term: 'Role', says: me.role },
            { term: 'Lab', says: me.lab.name },
          ]}
        />
        <Section question="Which passphrase do you choose?" word="Passphrase">
          <form className="form" onSubmit={submit}>
            <input type="text" name="username" autoComplete="username" value={me.person} readOnly hidden />
            <Field
              label="Passphrase you were given"
              name="current"
              type="password"
              autoComplete="current-password"
              required
            />
            <Field
              label="Own passphrase"
              name="passphrase"
              type="password"
              autoComplete="new-password"
              required
              hint="At least 15 characters. Take several words that do not belong together; spaces are welcome, no kind of character is needed."
            />
            <Field
              label="Own passphrase, once more"
              name="repeated"
              type="password"
              autoComplete="new-password"
              required
            />
            <FormProblem error={error} />
            <button className="action main" type="submit" disabled={choose.isPending}>
              Choose this passphrase
            </button>
          </form>
        </Section>
      </Sheet>
    </main>
  );
}
