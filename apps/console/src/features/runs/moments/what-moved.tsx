import { type Characteristic, MOVED_QUESTION, type Reading } from '@breakbook/lab';
import { Table } from '../../../parts/table.js';
import { usePrint } from '../../../parts/units/reader.js';

interface Change {
  key: string;
  title: string;
  was: string;
  is: string;
}

/** What moved moments changed: each number as it was proposed and as it is. */
export function WhatMoved({ characteristics, passages = [] }: Pick<Reading, 'characteristics' | 'passages'>) {
  const { tell } = usePrint();
  const changes = [
    ...changesIn(characteristics, ''),
    ...passages.flatMap((one) => changesIn(one.characteristics, `, passage ${one.passage}`)),
  ];
  if (changes.length === 0) return <p className="quiet">No number of this run changed by it.</p>;
  return (
    <Table<Change>
      caption="What the moved moments changed"
      columns={[
        { head: 'Number', cell: ({ title }) => title },
        { head: 'As proposed', wide: true, cell: ({ was }) => tell(was) },
        { head: 'As moved', wide: true, cell: ({ is }) => tell(is) },
      ]}
      rows={changes}
      rowKey={({ key }) => key}
      empty=""
    />
  );
}

function changesIn(characteristics: readonly Characteristic[], where: string): Change[] {
  return characteristics.flatMap(({ characteristic, title, steps }) => {
    const numbers = steps.find(({ question }) => question === MOVED_QUESTION)?.numbers;
    if (!numbers) return [];
    return [
      {
        key: `${characteristic}${where}`,
        title: `${title}${where}`,
        was: String(numbers['as proposed']),
        is: String(numbers['as moved']),
      },
    ];
  });
}
