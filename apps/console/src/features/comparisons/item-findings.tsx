import type { ItemFinding } from '@breakbook/lab';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { Level } from './level.js';
import { SpecimenLink } from './specimen-link.js';

/** What was found of each item. Level and reason share a column, so that a narrow page has room for the reason. */
export function ItemFindings({ caption, items }: { caption: string; items: readonly ItemFinding[] }) {
  const { tell } = usePrint();
  return (
    <Table<ItemFinding>
      caption={caption}
      columns={[
        { head: 'Item', cell: ({ specimen }) => <SpecimenLink of={specimen} /> },
        {
          head: 'Level, and because of what',
          wide: true,
          cell: ({ level, sentence }) => (
            <>
              <Level of={level} />
              <span className="under">{tell(sentence)}</span>
            </>
          ),
        },
      ]}
      rows={items}
      rowKey={({ specimen }) => specimen}
      empty=""
    />
  );
}
