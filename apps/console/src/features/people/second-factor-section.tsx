import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { OwnSecondFactors } from '../../client/answers.js';
import { meQuery, secondFactorQuery } from '../../client/queries.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { Field, FormProblem } from '../../parts/field.js';
import { Section } from '../../parts/sheet/sheet.js';
import { AddCodeGenerator } from './code-generator.js';
import { textOf } from './form-text.js';
import { addPasskey } from './passkey.js';
import { PassphraseAgain } from './passphrase-again.js';
import './second-factor-section.css';

/** What the person has beside the passphrase: a code generator, passkeys, codes for the day both are lost. */
export function SecondFactorSection() {
  const { data: own } = useQuery(secondFactorQuery);
  const [codes, setCodes] = useState<string[]>([]);
  if (!own) return null;
  return (
    <Section
      question="What do you have beside the passphrase?"
      word="Second factor"
      aside="Reviewing, deciding, issuing and administering need one: a passphrase may have been seen. At sign-in it is asked of whoever has one."
    >
      {codes.length > 0 && <RecoveryCodes codes={codes} />}
      <h3>Code generator</h3>
      {own.codeGenerator ? (
        <>
          <p>One is in use.</p>
          <Act word="Remove it" act={() => send('POST /api/me/code-generator/removal')} />
        </>
      ) : (
        <AddCodeGenerator onCodes={setCodes} />
      )}
      <h3>Passkeys</h3>
      <PasskeyList own={own} />
      <AddPasskey onCodes={setCodes} />
      {(own.codeGenerator || own.passkeys.length > 0) && (
        <>
          <h3>Recovery codes</h3>
          <p>{own.recoveryCodes} of them are left. Each stands in for a second factor that was lost, once.</p>
          <Act
            word="Draw new ones"
            act={async () => setCodes((await send('POST /api/me/recovery-codes')).recoveryCodes)}
          />
        </>
      )}
    </Section>
  );
}

function RecoveryCodes({ codes }: { codes: readonly string[] }) {
  return (
    <div role="status">
      <p>
        <strong>Write these recovery codes down now.</strong> They are shown this once; those before hold no more. Keep
        them where your telephone is not.
      </p>
      <ul className="recovery-codes">
        {codes.map((code) => (
          <li key={code}>
            <code>{code}</code>
          </li>
        ))}
      </ul>
    </div>
  );
}

function PasskeyList({ own: { passkeys } }: { own: OwnSecondFactors }) {
  if (passkeys.length === 0)
    return <p>A key that this device, a telephone or a stick keeps, and uses for this address alone. You have none.</p>;
  return (
    <ul className="passkeys">
      {passkeys.map(({ id, name }) => (
        <li key={id}>
          <bdi>{name}</bdi>
          <Act
            word="Remove"
            of={name}
            act={() => send('POST /api/me/passkeys/{passkey}/removal', { path: { passkey: id } })}
          />
        </li>
      ))}
    </ul>
  );
}

function AddPasskey({ onCodes }: { onCodes: (codes: string[]) => void }) {
  const read = useReadAnew();
  const add = useMutation({
    mutationFn: addPasskey,
    onSuccess: async (codes) => {
      if (codes.length > 0) onCodes(codes);
      await read();
    },
  });
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    add.mutate(textOf(new FormData(event.currentTarget), 'name').trim());
  };
  return (
    <>
      <form className="form" onSubmit={submit}>
        <Field label="Name of a new passkey" name="name" hint="Such as: stick on my key ring." required />
        <FormProblem error={needsPassphrase(add.error) ? null : add.error} />
        <button type="submit" className="action" disabled={add.isPending}>
          Add a passkey
        </button>
      </form>
      <PassphraseAgain
        error={add.error}
        onGiven={() => {
          if (add.variables !== undefined) add.mutate(add.variables);
        }}
        adding
      />
    </>
  );
}

/** A button that does something in the person's name, which may need the passphrase again. */
function Act({ word, of, act }: { word: string; of?: string; act: () => Promise<unknown> }) {
  const read = useReadAnew();
  const done = useMutation({ mutationFn: act, onSuccess: read });
  return (
    <>
      <button
        type="button"
        className="action"
        aria-label={of === undefined ? undefined : `${word}: ${of}`}
        onClick={() => done.mutate()}
        disabled={done.isPending}
      >
        {word}
      </button>
      <FormProblem error={needsPassphrase(done.error) ? null : done.error} />
      <PassphraseAgain error={done.error} onGiven={() => done.mutate()} />
    </>
  );
}

function useReadAnew(): () => Promise<void> {
  const queries = useQueryClient();
  return async () => {
    await queries.invalidateQueries({ queryKey: secondFactorQuery.queryKey });
    await queries.invalidateQueries({ queryKey: meQuery.queryKey });
  };
}
