import { type DispositionOutcome, Paragraph } from '@breakbook/lab';
import { useState } from 'react';
import type { SheetToSign } from '../../client/answers.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { capital } from '../../parts/capital.js';
import { FormProblem, TextArea } from '../../parts/field.js';
import { Picks } from '../../parts/picks.js';
import { Section } from '../../parts/sheet/sheet.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';
import { whyNotSign } from './why-not-sign.js';

const RENEWS = ['disposition', 'lot', 'lots'];

/** The signature, which opens once nothing is missing, for whoever is on neither other side. */
export function SignSection({ shown }: { shown: SheetToSign }) {
  const me = useMe();
  const { sheet } = shown;
  const waiting = sheet.dispositions.find(({ state }) => state === 'waits for a second decider');
  const not = whyNotSign(me, sheet);
  return (
    <Section
      question="What becomes of the lot?"
      word="Decision"
      aside="A signature covers everything above, by its digest. If anything changes meanwhile, it is refused and the sheet is read again."
    >
      {not !== undefined ? (
        <p>{not}</p>
      ) : (
        <>
          {waiting && <Countersign number={waiting.number} outcome={waiting.outcome} shown={shown} />}
          <Decide shown={shown} />
        </>
      )}
    </Section>
  );
}

function Countersign({ number, outcome, shown }: { number: number; outcome: string; shown: SheetToSign }) {
  const sign = useSent({
    send: () =>
      send('POST /api/dispositions/{n}/signatures', { path: { n: `${number}` }, body: { shown: shown.sha256 } }),
    renews: RENEWS,
  });
  return (
    <>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          sign.mutate(undefined);
        }}
      >
        <p>
          Disposition {number} waits for you: lot {shown.sheet.lot} {outcome}. After your signature it is in force, and
          can only be changed by a new disposition.
        </p>
        <FormProblem error={needsPassphrase(sign.error) ? null : sign.error} />
        <button type="submit" className="action main" disabled={sign.isPending}>
          Sign as second decider
        </button>
      </form>
      <PassphraseAgain error={sign.error} onGiven={() => sign.mutate(undefined)} />
    </>
  );
}

function Decide({ shown }: { shown: SheetToSign }) {
  const { sheet, sha256 } = shown;
  const last = sheet.dispositions.at(-1);
  const [outcome, setOutcome] = useState<DispositionOutcome>();
  const [reason, setReason] = useState('');
  const decide = useSent({
    send: (chosen: DispositionOutcome) =>
      send('POST /api/lots/{lot}/dispositions', {
        path: { lot: sheet.lot },
        body: {
          outcome: chosen,
          reason: reason.trim(),
          shown: sha256,
          ...(last ? { replaces: last.number } : {}),
        },
      }),
    renews: RENEWS,
  });
  const again = () => {
    if (decide.variables !== undefined) decide.mutate(decide.variables);
  };
  const offered = sheet.outcomes.find((one) => one.outcome === outcome);
  return (
    <>
      <form
        className="form wide"
        onSubmit={(event) => {
          event.preventDefault();
          if (outcome !== undefined) decide.mutate(outcome);
        }}
      >
        {last && (
          <p>
            Disposition {last.number} ({last.outcome}) {last.state === 'in force' ? 'is in force' : last.state}. A new
            one replaces it.
          </p>
        )}
        <Picks
          legend={`Decision about lot ${sheet.lot}`}
          options={sheet.outcomes
            .filter(({ possible }) => possible)
            .map(({ outcome: value, deciders }) => ({
              value,
              word: capital(value),
              hint: deciders === 2 ? 'Needs a second decider.' : undefined,
            }))}
          picked={outcome === undefined ? [] : [outcome]}
          onPick={([next]) => setOutcome(next)}
        />
        {sheet.outcomes
          .filter(({ possible }) => !possible)
          .map((one) => (
            <p key={one.outcome} className="quiet small">
              Not to be had: {one.outcome}, because {one.because}.
            </p>
          ))}
        <TextArea label="Reason" rows={3} value={reason} onChange={({ target }) => setReason(target.value)} required />
        <FormProblem error={needsPassphrase(decide.error) ? null : decide.error} />
        <p className="quiet small">
          {offered?.deciders === 2
            ? 'After your signature it waits for a second decider.'
            : 'After your signature it is in force, and can only be changed by a new disposition.'}
        </p>
        <button
          type="submit"
          className="action main"
          disabled={outcome === undefined || decide.isPending || !Paragraph.safeParse(reason.trim()).success}
        >
          {outcome === undefined ? 'Sign disposition' : `Sign: ${outcome}`}
        </button>
      </form>
      <PassphraseAgain error={decide.error} onGiven={again} />
    </>
  );
}
