import type { Person } from '@breakbook/lab';
import { useState } from 'react';
import type { ComparisonRecord } from '../../client/answers.js';
import { send } from '../../client/send.js';
import { useSent } from '../../client/use-sent.js';
import { TextArea } from '../../parts/field.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';
import { Names } from './declared-section.js';

const RENEWS = ['comparisons', 'specimen'];

/** Is what was declared approved? Asked of those who may, told to everybody else. Afterwards it can be withdrawn. */
export function ApprovalSection({ of, people }: { of: ComparisonRecord; people: readonly Person[] }) {
  const me = useMe();
  const { state, revision, declaredBy, mayApprove, inForce } = of;
  const mayDefine = me.duties.includes('define');
  const isOver = state === 'withdrawn' || state === 'concluded';
  if (isOver || (state !== 'declared' && !mayDefine)) return null;
  return (
    <Section
      question={state === 'declared' ? 'Is what is declared approved?' : 'Does it go on?'}
      word="Approval"
      aside="Signed in your name, with the digest of exactly what is declared above."
    >
      {state === 'declared' && (
        <>
          <p>
            Rev. {revision} waits for another person than who declared it
            {mayApprove.length > 0 && (
              <>
                : <Names people={people} of={mayApprove} />
              </>
            )}
            .{inForce !== undefined && inForce !== revision && ` Until then items are examined by rev. ${inForce}.`}
          </p>
          {mayDefine && mayApprove.includes(me.person) && <Approve of={of} />}
          {mayDefine && <Decline of={of} mine={declaredBy === me.person} />}
        </>
      )}
      {mayDefine && (
        <Fold word="Withdraw the comparison">
          <Withdraw of={of} />
        </Fold>
      )}
    </Section>
  );
}

function Approve({ of: { comparison, revision, sha256 } }: { of: ComparisonRecord }) {
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/comparisons/{comparison}/approval', { path: { comparison }, body: { shown: sha256 } }),
    renews: RENEWS,
  });
  return (
    <AgainForm sent={sent} button={`Approve rev. ${revision}`} whole>
      <p>
        After this, items are examined by it. What is looked at besides needs a further revision, told with its reason.
      </p>
    </AgainForm>
  );
}

function Decline({ of: { comparison, sha256 }, mine }: { of: ComparisonRecord; mine: boolean }) {
  const [because, setBecause] = useState('');
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/comparisons/{comparison}/declining', {
        path: { comparison },
        body: { shown: sha256, because: because.trim() },
      }),
    renews: RENEWS,
  });
  return (
    <AgainForm sent={sent} button={mine ? 'Take it back' : 'Decline it'} whole={because.trim() !== ''}>
      <TextArea
        label={mine ? 'Why it is taken back' : 'Why it is declined'}
        rows={2}
        value={because}
        onChange={({ target }) => setBecause(target.value)}
      />
    </AgainForm>
  );
}

function Withdraw({ of: { comparison } }: { of: ComparisonRecord }) {
  const [reason, setReason] = useState('');
  const sent = useSent({
    send: (_: undefined) =>
      send('POST /api/comparisons/{comparison}/withdrawal', { path: { comparison }, body: { reason: reason.trim() } }),
    renews: RENEWS,
  });
  return (
    <AgainForm sent={sent} button="Withdraw it" whole={reason.trim() !== ''}>
      <TextArea
        label="Why it is withdrawn"
        hint="It then goes no further; what was written down stays."
        rows={2}
        value={reason}
        onChange={({ target }) => setReason(target.value)}
      />
    </AgainForm>
  );
}
