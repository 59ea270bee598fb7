import { useInfiniteQuery, useMutation, useQuery } from '@tanstack/react-query';
import type { LedgerEntry, Verification } from '../../client/answers.js';
import { labQuery, ledgerQuery, peopleQuery } from '../../client/queries.js';
import { send } from '../../client/send.js';
import { FormProblem } from '../../parts/field.js';
import { Listing } from '../../parts/listing.js';
import { moment } from '../../parts/moment.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { Checkpoints } from './checkpoints.js';
import { Recompute } from './recompute.js';

/** Everything that was written in the lab, in the order in which it was; each entry holds the hash of the one before. */
export function LedgerPage() {
  const list = useInfiniteQuery(ledgerQuery);
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { duties } = useMe();
  return (
    <Listing
      title="Ledger"
      things="entries"
      sentence="Each entry holds the hash of the one before it, so that none can be changed or taken out unseen. Their order is that of their numbers."
      list={list}
    >
      {(entries) => (
        <>
          {duties.includes('audit') && <Verify />}
          {(duties.includes('audit') || duties.includes('review')) && <Recompute />}
          <Checkpoints signs={duties.includes('audit') || duties.includes('administer')} />
          <Table<LedgerEntry>
            caption="Entries, newest first"
            columns={[
              { head: 'Entry', number: true, cell: ({ sequence }) => String(sequence) },
              { head: 'At', cell: ({ at }) => <span className="whole">{moment(at, lab?.zone ?? 'UTC')}</span> },
              { head: 'By', wide: true, cell: ({ by }) => <Who people={people} person={by} /> },
              { head: 'What', cell: ({ action }) => action },
              { head: 'Reason', wide: true, cell: ({ reason }) => reason ?? '' },
              { head: 'Hash', wide: true, cell: ({ hash }) => <code>{hash}</code> },
            ]}
            rows={entries}
            rowKey={({ sequence }) => String(sequence)}
            empty="Nothing was written yet."
          />
        </>
      )}
    </Listing>
  );
}

/** Reads every entry, row and kept byte again and says whether all is as it was written. */
function Verify() {
  const verify = useMutation({ mutationFn: () => send('POST /api/ledger/verification') });
  return (
    <div className="verify">
      <button type="button" className="action" onClick={() => verify.mutate()} disabled={verify.isPending}>
        Verify everything
      </button>
      <p role="status">
        {verify.isPending && 'Reading every entry, row and kept byte; this takes as long as there are bytes.'}
        {verify.data && saidOf(verify.data)}
      </p>
      <FormProblem error={verify.error} />
    </div>
  );
}

function saidOf(found: Verification): string {
  if (found.holds)
    return `Everything is as it was written: ${found.entries} entries, ${found.rows} rows, ${found.files} files and ${found.checkpoints} checkpoints were read.`;
  const where = found.table === undefined ? `entry ${found.sequence}` : `table ${found.table}, row ${found.id}`;
  return `Not as it was written, first at ${where}: ${found.because}`;
}
