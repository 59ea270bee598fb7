import type { Person } from '@breakbook/lab';
import { Link } from 'react-router';
import type { RunInList } from '../client/answers.js';
import { runAddress, specimenAddress } from './addresses.js';
import { Outcome } from './marks/outcome.js';
import { moment } from './moment.js';
import { Table } from './table.js';
import { Who } from './who.js';

interface RunTableProps {
  runs: readonly RunInList[];
  people: readonly Person[];
  zone: string;
  empty: string;
}

/** Runs in the order recorded, invalid ones too; of their results nothing. */
export function RunTable({ runs, people, zone, empty }: RunTableProps) {
  return (
    <Table<RunInList>
      caption="All runs, valid or not, in the order recorded"
      columns={[
        {
          head: 'Run',
          cell: ({ run, lot }) => (
            <Link className="whole" to={runAddress(lot, run)}>
              {run}
            </Link>
          ),
        },
        { head: 'Specimen', cell: ({ specimen }) => <Link to={specimenAddress(specimen)}>{specimen}</Link> },
        { head: 'Line', cell: ({ planLine }) => planLine },
        { head: 'Began', cell: ({ startedAt }) => <span className="whole">{moment(startedAt, zone)}</span> },
        { head: 'Rig', cell: ({ rig }) => rig ?? 'keyed' },
        { head: 'By', wide: true, cell: ({ operator }) => <Who people={people} person={operator} /> },
        { head: 'Ended because', cell: ({ endReason }) => endReason ?? 'not examined' },
        {
          head: 'Validity',
          wide: true,
          cell: ({ validity, invalidReason }) => (
            <>
              <Outcome word={validity} />
              {invalidReason !== undefined && <span className="quiet small under">{invalidReason}</span>}
            </>
          ),
        },
      ]}
      rows={runs}
      rowKey={({ run }) => run}
      empty={empty}
    />
  );
}
