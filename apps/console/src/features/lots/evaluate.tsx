import { PLAIN_PRINT, type PrintChoice } from '@breakbook/lab';
import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { type EvaluationInList, type JobAnswer } from '../../client/answers.js';
import { documentAddress, evaluationsQuery, seatTaken } from '../../client/queries.js';
import { isSignedOut, needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useJob } from '../../client/use-job.js';
import { FormProblem } from '../../parts/field.js';
import { Progress } from '../../parts/progress.js';
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
  const busy = ask.isPending || work.job?.state === 'waiting' || work.job?.state === 'running';
  return (
    <>
      {last?.documents.at(-1) !== undefined && (
        <a className="action main" href={documentAddress(last.documents.at(-1) ?? 0)} target="_blank" rel="noreferrer">
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
      <JobState job={work.job} silent={work.silent} last={last} onCancel={cancel.mutate} />
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
  job: JobAnswer | undefined;
  silent: boolean;
  last: EvaluationInList | undefined;
  onCancel: (id: string) => void;
}

function JobState({ job, silent, last, onCancel }: JobStateProps) {
  if (!job) return null;
  const { state, progress, problems = [] } = job;
  if (state === 'waiting' || state === 'running')
    return (
      <div className="work">
        <Progress
          says={
            silent
              ? 'The service does not answer; it is asked again'
              : progress
                ? `${progress.at} (${Math.round(progress.share * 100)} %)`
                : state === 'waiting'
                  ? 'Waiting for its turn'
                  : 'At work'
          }
          share={progress?.share}
        />
        <button type="button" className="plain" onClick={() => onCancel(job.id)}>
          Cancel
        </button>
      </div>
    );
  return (
    <p role="status" className="work small">
      {state === 'done' &&
        (job.document === undefined ? `Evaluation ${job.evaluation} is done.` : `Document ${job.document} is made.`)}
      {state === 'cancelled' && `Cancelled; ${last ? `evaluation ${last.number} stands` : 'nothing was kept'}.`}
      {state === 'failed' &&
        `It could not be done. ${problems.map(({ detail, action }) => [detail, action].filter(Boolean).join(' ')).join(' ')}`}
    </p>
  );
}
