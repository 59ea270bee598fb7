import { InvalidReason, photosMissing, type Validity } from '@breakbook/lab';
import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { RunRecord } from '../../../client/answers.js';
import { seatTaken } from '../../../client/queries.js';
import { isSignedOut, needsPassphrase } from '../../../client/read.js';
import { send } from '../../../client/send.js';
import { FormProblem, TextArea } from '../../../parts/field.js';
import { Picks } from '../../../parts/picks.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { useMe } from '../../people/me.js';
import { PassphraseAgain } from '../../people/passphrase-again.js';
import type { RunOnSheet } from '../use-run-sheet.js';
import { whyNotMine } from './why-not-mine.js';

type Reason = (typeof InvalidReason.options)[number];

/** Is the run valid? Decided once, by somebody who recorded nothing of it and has seen no limit. */
export function ValiditySection({ answer: { run, reading }, record, around }: RunOnSheet) {
  const me = useMe();
  if (run.validity) return null;
  const not = whyNotMine(me, record);
  const lacking = run.examination?.withoutPhotos === undefined ? photosMissing(record.photosAsked) : [];
  return (
    <Section
      question="Is this run valid?"
      word="Validity"
      aside="Decided from the trace and the checks alone. Limits, verdicts and margins are shown to nobody before."
    >
      {lacking.length > 0 && (
        <p>
          Photos that the failure mode asks for are missing: {lacking.map(({ of }) => of).join(', ')}. Validity is
          decided once they are there, or once the examination says why they are not; see “What does it look like?”
          above. A run recorded by mistake is made void without them.
        </p>
      )}
      {not === undefined ? (
        <DecideForm record={record} lot={around.lot} proposed={reading.proposedValidity} />
      ) : (
        <p>{not}</p>
      )}
    </Section>
  );
}

const WORDS: { value: Validity; word: string; hint: string }[] = [
  { value: 'valid', word: 'Valid', hint: 'The run was made as the method asks. It enters the claim.' },
  {
    value: 'valid with deviation',
    word: 'Valid with deviation',
    hint: 'It departs from the method in a way that does not change its result. Say how in the note.',
  },
  {
    value: 'invalid',
    word: 'Invalid',
    hint: 'Its result says nothing about the specimen. It stays out of the claim, and is counted and printed.',
  },
  { value: 'void', word: 'Void', hint: 'Recorded by mistake. The note says which mistake.' },
];

function DecideForm({ record, lot, proposed }: { record: RunRecord; lot: string; proposed: string }) {
  const queries = useQueryClient();
  const { run } = record.run;
  const [validity, setValidity] = useState<Validity>();
  const [reason, setReason] = useState<Reason>();
  const [note, setNote] = useState('');
  const decide = useMutation({
    mutationFn: (decided: Validity) =>
      send('POST /api/runs/{run}/validity', {
        path: { run },
        body: {
          validity: decided,
          ...(decided === 'invalid' && reason !== undefined ? { reason } : {}),
          ...(note.trim() === '' ? {} : { note: note.trim() }),
        },
        follows: record.version,
      }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: () =>
      Promise.all([
        queries.invalidateQueries({ queryKey: ['run', run] }),
        queries.invalidateQueries({ queryKey: ['runs'] }),
        queries.invalidateQueries({ queryKey: ['lot', lot] }),
      ]),
  });
  const missing = whatIsMissing(validity, reason, note);
  const decideAgain = () => {
    if (decide.variables !== undefined) decide.mutate(decide.variables);
  };
  return (
    <>
      <form
        className="form wide"
        onSubmit={(event) => {
          event.preventDefault();
          if (validity !== undefined && missing === undefined) decide.mutate(validity);
        }}
      >
        <p className="quiet">The checks propose: {proposed}. They bind nobody.</p>
        <Picks
          legend={`Decision on run ${run}`}
          options={WORDS}
          picked={validity === undefined ? [] : [validity]}
          onPick={([next]) => setValidity(next)}
        />
        {validity === 'invalid' && (
          <Picks
            legend="Reason"
            options={InvalidReason.options.map((value) => ({ value, word: value }))}
            picked={reason === undefined ? [] : [reason]}
            onPick={([next]) => setReason(next)}
          />
        )}
        <TextArea
          label={needsNote(validity) ? 'Note' : 'Note, if there is more to say'}
          value={note}
          rows={3}
          onChange={({ target }) => setNote(target.value)}
        />
        <FormProblem error={needsPassphrase(decide.error) ? null : decide.error} />
        <p className="quiet small">
          After this, limits and verdicts of the run are shown, and what was recorded of it can no longer be corrected.
          A later decision needs a note and stands beside this one.
        </p>
        {missing !== undefined && validity !== undefined && <p className="small">{missing}</p>}
        <button className="action main" type="submit" disabled={missing !== undefined || decide.isPending}>
          {validity === undefined ? 'Decide validity' : `Decide: ${validity}`}
        </button>
      </form>
      <PassphraseAgain error={decide.error} onGiven={decideAgain} />
    </>
  );
}

function needsNote(validity: Validity | undefined): boolean {
  return validity === 'valid with deviation' || validity === 'void';
}

/** What the form still lacks, in a sentence; undefined where it is whole. */
function whatIsMissing(validity: Validity | undefined, reason: Reason | undefined, note: string): string | undefined {
  if (validity === undefined) return 'Choose how the run stands.';
  if (validity === 'invalid' && reason === undefined) return 'An invalid run needs one of the listed reasons.';
  if (needsNote(validity) && note.trim() === '')
    return validity === 'void' ? 'A note says which mistake it was.' : 'A note says what the deviation is.';
  return undefined;
}
