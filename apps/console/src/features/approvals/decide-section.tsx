import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { ProposalAnswer } from '../../client/answers.js';
import { seatTaken } from '../../client/queries.js';
import { isSignedOut, needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { FormProblem, TextArea } from '../../parts/field.js';
import { Section } from '../../parts/sheet/sheet.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';
import { People } from './approvals-page.js';

/** Is it approved? Asked of whom it was put before; told to everybody else. */
export function DecideSection({ proposal }: { proposal: ProposalAnswer }) {
  const me = useMe();
  const queries = useQueryClient();
  const [because, setBecause] = useState('');
  const { number, sha256: shown, state, before, proposedBy } = proposal;
  const path = { n: String(number) };
  const decide = useMutation({
    mutationFn: (what: 'approve' | 'decline') =>
      what === 'approve'
        ? send('POST /api/proposals/{n}/approval', { path, body: { shown } })
        : send('POST /api/proposals/{n}/declining', { path, body: { shown, because: because.trim() } }),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    // Whatever it was, other pages name it.
    onSuccess: () => queries.invalidateQueries(),
  });
  if (state !== 'waiting') return null;
  const mine = proposedBy === me.person;
  const mayApprove = before.includes(me.person) && !mine;
  if (!me.duties.includes('define'))
    return (
      <Section question="Is it approved?" word="Approval">
        <p>
          <People keys={before} /> may approve it.
        </p>
      </Section>
    );
  return (
    <Section
      question="Is it approved?"
      word="Approval"
      aside="Signed in your name, with the digest of exactly what stands above."
    >
      {!mayApprove && (
        <p>
          {mine ? 'You proposed it, so another person approves it: ' : 'It was put before '}
          <People keys={before} />. {mine ? 'You can take it back.' : 'You can decline it.'}
        </p>
      )}
      {mayApprove && (
        <>
          <p className="quiet small">
            After this, runs can be made and judged by it from its day on, and it can no longer be declined. Verdicts
            given before stay as they are.
          </p>
          <button
            type="button"
            className="action main"
            onClick={() => decide.mutate('approve')}
            disabled={decide.isPending}
          >
            Approve rev. {proposal.revision} of {proposal.key}
          </button>
        </>
      )}
      <form
        className="form wide"
        onSubmit={(event) => {
          event.preventDefault();
          if (because.trim() !== '') decide.mutate('decline');
        }}
      >
        <TextArea
          label={mine ? 'Why it is taken back' : 'Why it is declined'}
          hint="It then never judges anything; the next revision has the next number."
          rows={2}
          value={because}
          onChange={({ target }) => setBecause(target.value)}
        />
        <button className="action" type="submit" disabled={because.trim() === '' || decide.isPending}>
          {mine ? 'Take it back' : 'Decline it'}
        </button>
      </form>
      <FormProblem error={needsPassphrase(decide.error) ? null : decide.error} />
      <PassphraseAgain
        error={decide.error}
        onGiven={() => {
          if (decide.variables !== undefined) decide.mutate(decide.variables);
        }}
      />
    </Section>
  );
}
