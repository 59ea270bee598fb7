import { PLAIN_PRINT, type PrintChoice } from '@breakbook/lab';
import { useInfiniteQuery, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { EvaluationInList, JobAnswer } from '../../client/answers.js';
import { documentAddress, documentsQuery } from '../../client/document-queries.js';
import { evaluationsQuery, seatTaken } from '../../client/queries.js';
import { isSignedOut, needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { type FollowedJob, useJob } from '../../client/use-job.js';
import { FormProblem } from '../../parts/field.js';
import { isUnderway, JobUnderway, whyFailed } from '../../parts/job-underway.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';
import { PrintChoices } from './print-choice.js';

const MAY_EVALUATE = ['review', 'decide', 'issue'] as const;
const MAY_REPORT = ['issue', 'decide'] as const;

/**
 * The two long works on a lot: judging it, and laying out the report of its last evaluation. Each goes on while the
 * page is left, and is found again under the lot's name. `main` is the one that comes next.
 */
export function LotWork({ lot }: { lot: string }) {
  const queries = useQueryClient();
  const { duties } = useMe();
  const evaluations = useQuery(evaluationsQuery(lot));
  const work = useJob(`work on lot ${lot}`, () => {
    void queries.invalidateQueries({ queryKey: ['lot', lot] });
    void queries.invalidateQueries({ queryKey: ['lots'] });
    void queries.invalidateQueries({ queryKey: ['documents'] });
  });
  const ask = useMutation({
    mutationFn: (work: () => Promise<JobAnswer>) => work(),
    onSuccess: ({ id }) => work.follow(id),
    onError: (error) => {
      if (isSignedOut(error)) seatTaken(queries, null);
    },
  });
  const cancel = useMutation({ mutationFn: (id: string) => send('POST /api/jobs/{id}/cancel', { path: { id } }) });
  const [print, setPrint] = useState<PrintChoice>(PLAIN_PRINT);
  const last = evaluations.data?.items[0];
  const documents = useInfiniteQuery({
    ...documentsQuery(lot),
    enabled: last !== undefined && last.documents.length > 0,
  });
  // The newest: once a report is signed, that is the one to read.
  const report = documents.data?.pages
    .flatMap(({ items }) => items)
    .find(({ kind, evaluation }) => kind === 'lot test report' && evaluation === last?.number);
  const busy = ask.isPending || isUnderway(work.job);
  return (
    <>
      {report && (
        <a className="action main" href={documentAddress(report.number)} target="_blank" rel="noreferrer">
          Open the report (PDF)
        </a>
      )}
      {last && last.documents.length === 0 && MAY_REPORT.some((duty) => duties.includes(duty)) && (
        <>
          <button
            type="button"
            className="action main"
            disabled={busy}
            onClick={() =>
              ask.mutate(() =>
                send('POST /api/evaluations/{n}/documents', {
                  path: { n: `${last.number}` },
                  body: { kind: 'lot test report', ...print },
                }),
              )
            }
          >
            Make the report
          </button>
          <PrintChoices print={print} onChoose={setPrint} />
        </>
      )}
      {evaluations.data && MAY_EVALUATE.some((duty) => duties.includes(duty)) && (
        <button
          type="button"
          className={last ? 'action' : 'action main'}
          disabled={busy}
          onClick={() => ask.mutate(() => send('POST /api/lots/{lot}/evaluations', { path: { lot } }))}
        >
          {last ? 'Evaluate again' : 'Evaluate'}
        </button>
      )}
      <JobState work={work} last={last} onCancel={cancel.mutate} />
      <PassphraseAgain
        error={ask.error}
        onGiven={() => {
          if (ask.variables !== undefined) ask.mutate(ask.variables);
        }}
      />
      <FormProblem error={needsPassphrase(ask.error) ? null : (ask.error ?? cancel.error ?? evaluations.error)} />
    </>
  );
}

interface JobStateProps {
  work: FollowedJob;
  last: EvaluationInList | undefined;
  onCancel: (id: string) => void;
}

function JobState({ work, last, onCancel }: JobStateProps) {
  const { job } = work;
  if (!job) return null;
  if (isUnderway(job))
    return (
      <div className="work">
        <JobUnderway work={work} />
        <button type="button" className="plain" onClick={() => onCancel(job.id)}>
          Cancel
        </button>
      </div>
    );
  const { state } = job;
  return (
    <p role="status" className="work small">
      {state === 'done' &&
        (job.document === undefined ? `Evaluation ${job.evaluation} is done.` : `Document ${job.document} is made.`)}
      {state === 'cancelled' && `Cancelled; ${last ? `evaluation ${last.number} stands` : 'nothing was kept'}.`}
      {state === 'failed' && whyFailed(job)}
    </p>
  );
}
