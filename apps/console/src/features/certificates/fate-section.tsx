import { CERTIFICATE_STATES, Line, mayMove } from '@breakbook/lab';
import { useState } from 'react';
import type { CertificateRecord } from '../../client/answers.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { Field } from '../../parts/field.js';
import { Picks } from '../../parts/picks.js';
import { Section } from '../../parts/sheet/sheet.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';

/** Everything that shows how a certificate stands. */
export const CERTIFICATE_RENEWS = ['certificates', 'documents'];

const FATES = [
  {
    move: 'put on hold',
    route: 'POST /api/certificates/{n}/hold',
    word: 'Put it on hold',
    follows: 'After this the lab does not stand by it, until it is released.',
  },
  {
    move: 'release',
    route: 'POST /api/certificates/{n}/release',
    word: 'Release it',
    follows: 'After this the lab stands by it again.',
  },
  {
    move: 'withdraw',
    route: 'POST /api/certificates/{n}/withdrawal',
    word: 'Withdraw it',
    follows: 'After this it is withdrawn for good; another can be issued.',
  },
] as const;
type Move = (typeof FATES)[number]['move'];

/** Holding, releasing and withdrawing, for whoever issues certificates; nothing where nothing more can become of it. */
export function FateSection({ one: { number, certificate, state } }: { one: CertificateRecord }) {
  const { duties } = useMe();
  const [move, setMove] = useState<Move>();
  const [reason, setReason] = useState('');
  const possible = FATES.filter((fate) => mayMove(CERTIFICATE_STATES, fate.move, state));
  const chosen = possible.find((fate) => fate.move === move);
  const sent = useSent({
    send: async (_: undefined) => {
      if (chosen) await send(chosen.route, { path: { n: `${number}` }, body: { reason: reason.trim() } });
    },
    renews: CERTIFICATE_RENEWS,
    onTaken: () => {
      setMove(undefined);
      setReason('');
    },
  });
  if (possible.length === 0 || !duties.includes('issue')) return null;
  return (
    <Section
      question="Does the lab stand by it?"
      word="Standing"
      aside="The reason is told to whoever asks for its status, so it names nobody and nothing that is not theirs to know."
    >
      <AgainForm
        sent={sent}
        button={chosen ? chosen.word.replace('it', certificate) : 'Choose first'}
        whole={chosen !== undefined && Line.safeParse(reason.trim()).success}
      >
        <Picks
          legend={`What becomes of ${certificate}`}
          options={possible.map(({ move: value, word, follows }) => ({ value, word, hint: follows }))}
          picked={move === undefined ? [] : [move]}
          onPick={([next]) => setMove(next)}
        />
        <Field label="Reason" value={reason} onChange={({ target }) => setReason(target.value)} />
      </AgainForm>
    </Section>
  );
}
