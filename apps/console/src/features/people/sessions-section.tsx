import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { labQuery, sessionsQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { FormProblem } from '../../parts/field.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';

/** Where the person is signed in, and ending it there. */
export function SessionsSection() {
  const queries = useQueryClient();
  const { data } = useQuery(sessionsQuery);
  const { data: lab } = useQuery(labQuery);
  const zone = lab?.zone ?? 'UTC';
  const end = useMutation({
    mutationFn: (session: string | undefined) =>
      session === undefined
        ? send('POST /api/me/sessions/ending')
        : send('POST /api/me/sessions/{session}/ending', { path: { session } }),
    onSuccess: () => queries.invalidateQueries({ queryKey: sessionsQuery.queryKey }),
  });
  if (!data) return null;
  const others = data.items.filter((one) => !one.this);
  return (
    <Section
      question="Where are you signed in?"
      word="Sessions"
      aside="A session ends after half an hour without use, after twelve hours, and when your passphrase or duties change."
    >
      <Table
        caption={`Your sessions, the latest first; times in ${zone}`}
        rows={data.items}
        rowKey={({ id }) => id}
        empty="None."
        columns={[
          { head: 'Began', cell: ({ beganAt }) => moment(beganAt, zone) },
          { head: 'Last used', cell: ({ seenAt }) => moment(seenAt, zone) },
          { head: 'Browser', wide: true, cell: ({ device }) => device || 'does not say' },
          {
            head: 'End',
            cell: (one) =>
              one.this ? (
                'this one'
              ) : (
                <button
                  type="button"
                  className="action"
                  aria-label={`End the session that began ${moment(one.beganAt, zone)}`}
                  onClick={() => end.mutate(one.id)}
                  disabled={end.isPending}
                >
                  End
                </button>
              ),
          },
        ]}
      />
      {others.length > 0 && (
        <button type="button" className="action" onClick={() => end.mutate(undefined)} disabled={end.isPending}>
          End all others
        </button>
      )}
      <FormProblem error={end.error} />
    </Section>
  );
}
