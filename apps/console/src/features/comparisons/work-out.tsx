import { useQueryClient } from '@tanstack/react-query';
import type { ComparisonRecord } from '../../client/answers.js';
import { needsPassphrase } from '../../client/read.js';
import { send } from '../../client/send.js';
import { useJob } from '../../client/use-job.js';
import { useSent } from '../../client/use-sent.js';
import { FormProblem } from '../../parts/field.js';
import { isUnderway, JobUnderway, whyFailed } from '../../parts/job-underway.js';
import { useMe } from '../people/me.js';
import { PassphraseAgain } from '../people/passphrase-again.js';

const MAY_ASK = ['review', 'decide', 'compare'] as const;

/** Has a comparison worked out from the records as they stand; the work goes on while the page is left. */
export function WorkOut({ of: { comparison, state, result, hiddenFromYou } }: { of: ComparisonRecord }) {
  const queries = useQueryClient();
  const { duties } = useMe();
  const work = useJob(`result of comparison ${comparison}`, () => {
    void queries.invalidateQueries({ queryKey: ['comparisons'] });
  });
  const ask = useSent({
    send: async (_: undefined) => {
      const { id } = await send('POST /api/comparisons/{comparison}/results', { path: { comparison } });
      work.follow(id);
    },
    renews: [],
  });
  if (!(state === 'approved' || state === 'concluded') || hiddenFromYou) return null;
  if (!MAY_ASK.some((duty) => duties.includes(duty))) return null;
  return (
    <>
      <button
        type="button"
        className={result === undefined ? 'action main' : 'action'}
        disabled={ask.isPending || isUnderway(work.job)}
        onClick={() => ask.mutate(undefined)}
      >
        {result === undefined ? 'Work out the result' : 'Work it out again'}
      </button>
      <JobUnderway work={work} />
      {work.job?.state === 'failed' && <p role="alert">{whyFailed(work.job)}</p>}
      <FormProblem error={needsPassphrase(ask.error) ? null : ask.error} />
      <PassphraseAgain error={ask.error} onGiven={() => ask.mutate(undefined)} />
    </>
  );
}
