import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { seatTaken } from '../../../client/queries.js';
import { isSignedOut } from '../../../client/read.js';
import { send } from '../../../client/send.js';
import { logUnreadAddress, proposalAddress, rigAddress } from '../../../parts/addresses.js';
import { Field, FormProblem, TextArea } from '../../../parts/field.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { useMe } from '../../people/me.js';
import { layoutOf } from './layout-draft.js';
import type { OfLayout } from './layout-editor.js';

/** Proposes the layout as the first or the next revision for its rig. */
export function KeepSection({ draft, change, inForce, unread }: OfLayout) {
  const { duties } = useMe();
  const queries = useQueryClient();
  const [reason, setReason] = useState('');
  const read = layoutOf(draft);
  const keep = useMutation({
    mutationFn: async () => {
      if (!('layout' in read)) throw new Error('Only a whole layout is sent.');
      const { layout } = read;
      return inForce === undefined
        ? send('POST /api/layouts', { body: layout })
        : send('POST /api/layouts/{layout}/revisions', {
            path: { layout: inForce.layout },
            body: { content: layout, reason: reason.trim() },
          });
    },
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
    onSuccess: () =>
      Promise.all([
        queries.invalidateQueries({ queryKey: ['layouts'] }),
        queries.invalidateQueries({ queryKey: ['proposals'] }),
      ]),
  });
  if (keep.data)
    return (
      <Section question="Is it in force?" word="Proposed">
        <p role="status">
          Proposed as revision {keep.data.content.revision} of {keep.data.content.layout}. It reads files once another
          person has approved it. Runs name the revision by which their files are read; those recorded before keep
          theirs.
        </p>
        <p>
          {keep.data.standing.proposal !== undefined && (
            <Link className="action main" to={proposalAddress(keep.data.standing.proposal)}>
              Who approves it
            </Link>
          )}{' '}
          {unread === undefined ? (
            <Link className="action" to={rigAddress(draft.rig)}>
              Open rig {draft.rig}
            </Link>
          ) : (
            <Link className="action" to={logUnreadAddress(unread)}>
              Read the unread file again, once it is approved
            </Link>
          )}
        </p>
      </Section>
    );
  if (!duties.includes('define'))
    return (
      <Section question="Who proposes it?" word="Keep">
        <p>
          A layout is proposed by somebody with the duty to define, and approved by another. You can try one on the
          file, and show it to them.
        </p>
      </Section>
    );
  const lacking = !('layout' in read) || (inForce !== undefined && reason.trim() === '');
  return (
    <Section
      question="Is it as the rig writes?"
      word="Keep"
      aside="A revision never changes once it is kept; the next one stands beside it."
    >
      <form
        className="form wide"
        onSubmit={(event) => {
          event.preventDefault();
          if (!lacking) keep.mutate();
        }}
      >
        {inForce === undefined ? (
          <Field
            label="Key of the layout"
            value={draft.layout}
            onChange={({ target }) => change({ layout: target.value })}
          />
        ) : (
          <TextArea
            label="Why the layout changes"
            value={reason}
            rows={2}
            onChange={({ target }) => setReason(target.value)}
          />
        )}
        <FormProblem error={keep.error} />
        <button className="action main" type="submit" disabled={lacking || keep.isPending}>
          Propose as revision {draft.revision} of {draft.layout === '' ? 'the layout' : draft.layout}
        </button>
      </form>
    </Section>
  );
}
