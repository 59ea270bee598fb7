import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { type JobAnswer, type RecomputedRun } from '../../client/answers.js';
import { recomputationQuery, recomputationsQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { useJob } from '../../client/use-job.js';
import { FormProblem } from '../../parts/field.js';
import { Progress } from '../../parts/progress.js';
import { Table } from '../../parts/table.js';

/** Has every stored run read again, and says of the last time which came out otherwise than they were kept. */
export function Recompute() {
  const queries = useQueryClient();
  const work = useJob('recomputation', () => void queries.invalidateQueries({ queryKey: ['recomputations'] }));
  const ask = useMutation({
    mutationFn: (): Promise<JobAnswer> => send('POST /api/recomputations'),
    onSuccess: ({ id }) => work.follow(id),
  });
  const busy = ask.isPending || work.job?.state === 'waiting' || work.job?.state === 'running';
  const { data } = useQuery(recomputationsQuery);
  const last = data?.items[0];
  return (
    <div className="verify">
      <button type="button" className="action" onClick={() => ask.mutate()} disabled={busy}>
        Read every run again
      </button>
      {busy && <Progress says={work.job?.progress?.at ?? 'Waiting its turn'} share={work.job?.progress?.share} />}
      <FormProblem error={ask.error} />
      {work.job?.state === 'failed' && <p role="alert">{work.job.problems?.[0]?.detail}</p>}
      {last && (
        <p role="status">
          {`Recomputation ${last.number}: ${last.identical} of ${last.runs} runs came out as they were kept, to the last bit` +
            `${last.different > 0 ? `; ${last.different} did not` : ''}` +
            `${last.refused > 0 ? `; ${last.refused} could not be read again` : ''}. Read by ${last.software}.`}
        </p>
      )}
      {last && last.identical < last.runs && <Different number={last.number} />}
    </div>
  );
}

interface Row {
  run: string;
  since: string;
  found: string;
}

function Different({ number }: { number: number }) {
  const { data } = useQuery(recomputationQuery(number));
  if (!data) return null;
  const rows: Row[] = [
    ...data.refused.map(({ run, because }) => ({ run, since: '', found: because })),
    ...data.different.flatMap(differencesOf),
  ];
  return (
    <Table<Row>
      caption="What is not as it was kept"
      columns={[
        { head: 'Run', cell: ({ run }) => run },
        { head: 'Since', cell: ({ since }) => since },
        { head: 'What', wide: true, cell: ({ found }) => found },
      ]}
      rows={rows}
      rowKey={({ run, found }) => `${run} ${found}`}
      empty="Every run came out as it was kept."
    />
  );
}

function differencesOf({ run, method, software, differences, count }: RecomputedRun): Row[] {
  const since = `${method.method} rev. ${method.revision}, ${software}`;
  const rows = differences.map(({ place, kept = 'not there', now = 'not there' }) => ({
    run,
    since,
    found: `${place}: was ${kept}, is ${now}`,
  }));
  const more = count - rows.length;
  return more > 0 ? [...rows, { run, since, found: `and ${more} more` }] : rows;
}
