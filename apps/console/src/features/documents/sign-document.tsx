import { Paragraph } from '@breakbook/lab';
import { useInfiniteQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { DocumentRecord } from '../../client/answers.js';
import { documentsQuery } from '../../client/document-queries.js';
import { send } from '../../client/send.js';
import { useJob } from '../../client/use-job.js';
import { useSent } from '../../client/use-sent.js';
import { TextArea } from '../../parts/field.js';
import { isUnderway, JobUnderway, whyFailed } from '../../parts/job-underway.js';
import { AgainForm } from '../people/again-form.js';
import { useMe } from '../people/me.js';

/** A draft is authorised as it is shown, and signed by the lab as a document of its own. */
export function SignDocument({ one }: { one: DocumentRecord }) {
  const queries = useQueryClient();
  const { duties } = useMe();
  const { number, lot, sha256 } = one;
  const [changed, setChanged] = useState('');
  const [because, setBecause] = useState('');
  const { data: ofLot } = useInfiniteQuery({ ...documentsQuery(lot ?? ''), enabled: lot !== null });
  const replaced = ofLot?.pages
    .flatMap(({ items }) => items)
    .find(({ kind, signedWith }) => kind === one.kind && signedWith !== null);
  const work = useJob(`signing of document ${number}`, () => {
    for (const name of ['documents', 'lot']) void queries.invalidateQueries({ queryKey: [name] });
  });
  const sent = useSent({
    send: async (_: undefined) => {
      const amendment = replaced ? { changed: changed.trim(), because: because.trim() } : {};
      const body = { shown: sha256, ...amendment };
      const { id } = await send('POST /api/documents/{n}/signing', { path: { n: `${number}` }, body });
      work.follow(id);
    },
    renews: [],
  });
  if (!duties.includes('issue')) return <p>Whoever has the duty to issue documents authorises it here.</p>;
  const isSaid = (text: string) => Paragraph.safeParse(text.trim()).success;
  return (
    <>
      <AgainForm
        sent={sent}
        button="Authorise and sign"
        whole={!isUnderway(work.job) && (replaced === undefined || (isSaid(changed) && isSaid(because)))}
      >
        <p>
          Open it and look at it first. After this the lab has signed it in your name, as a new document that can only
          be replaced by another; the draft stays as it is.
        </p>
        {replaced && (
          <>
            <p>It replaces document {replaced.number}, which is signed. What changed and why is printed at its head.</p>
            <TextArea
              label="What changed against that one"
              rows={2}
              value={changed}
              onChange={({ target }) => setChanged(target.value)}
            />
            <TextArea label="Why" rows={2} value={because} onChange={({ target }) => setBecause(target.value)} />
          </>
        )}
      </AgainForm>
      <JobUnderway work={work} />
      {work.job?.state === 'failed' && <p role="alert">{whyFailed(work.job)}</p>}
    </>
  );
}
