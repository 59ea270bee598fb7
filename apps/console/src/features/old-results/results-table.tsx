import { oldValueInWords } from '@breakbook/lab';
import { Link } from 'react-router';
import type { OldTableTrial } from '../../client/answers.js';
import { lotAddress, oldTableAddress } from '../../parts/addresses.js';
import { day } from '../../parts/moment.js';
import { type Column, Table } from '../../parts/table.js';

type Told = OldTableTrial['results'][number] & { table?: number };

/** Old results as they were told, in the digits and units of their table: nothing of them is converted. */
export function ResultsTable({ caption, results }: { caption: string; results: readonly Told[] }) {
  const columns: Column<Told>[] = [
    { head: 'Specimen', cell: ({ specimen }) => <bdi>{specimen}</bdi> },
    {
      head: 'Lot',
      cell: ({ lot, lotKnown }) => (lotKnown ? <Link to={lotAddress(lot)}>{lot}</Link> : <bdi>{lot}</bdi>),
    },
    { head: 'Test', wide: true, cell: ({ test }) => <bdi>{test}</bdi> },
    { head: 'Quantity', wide: true, cell: ({ characteristic }) => <bdi>{characteristic}</bdi> },
    { head: 'As told', cell: (one) => <span className="whole">{oldValueInWords(one)}</span> },
    { head: 'Day', cell: ({ date }) => (date === undefined ? 'unknown' : day(date)) },
    { head: 'Rig', cell: ({ rig }) => <bdi>{rig ?? 'unknown'}</bdi> },
    { head: 'Validity as told', cell: ({ validity }) => validity },
    { head: 'Source', wide: true, cell: ({ source }) => <bdi>{source}</bdi> },
    { head: 'Remark', wide: true, cell: ({ remark }) => <bdi>{remark ?? 'none'}</bdi> },
    {
      head: 'Line',
      cell: ({ table, line }) =>
        table === undefined ? line : <Link to={oldTableAddress(table)}>{`table ${table}, line ${line}`}</Link>,
    },
  ];
  return (
    <Table<Told>
      caption={caption}
      columns={columns}
      rows={results}
      rowKey={({ table, line }) => `${table} ${line}`}
      empty="None is told."
    />
  );
}
