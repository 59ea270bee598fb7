import type { LayoutProposal } from '../../../client/answers.js';
import { Facts, Section } from '../../../parts/sheet/sheet.js';
import { Table } from '../../../parts/table.js';

/** What the bytes of a file say of how it is written, what they say in two ways, and what they do not say. */
export function FoundSection({ proposal: { understood, columns, doubts, toFill } }: { proposal: LayoutProposal }) {
  return (
    <Section
      question="What does the file say of itself?"
      word="Found"
      aside="Told from its first megabyte. Units, channels, zones and rates are never guessed."
    >
      <Facts of={understood.map(({ what, found }) => ({ term: what, says: found }))} />
      {doubts.length > 0 && (
        <>
          <h3>For a person to decide</h3>
          <ul className="notes">
            {doubts.map((doubt) => (
              <li key={doubt}>{doubt}</li>
            ))}
          </ul>
        </>
      )}
      <h3>To fill in, since no file says it</h3>
      <ul className="notes">
        {toFill.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
      <Table<LayoutProposal['columns'][number]>
        caption="Columns of the file"
        columns={[
          { head: 'Name', cell: ({ column, name }) => <bdi>{name === '' ? `column ${column}` : name}</bdi> },
          { head: 'Unit as written', cell: ({ unit }) => (unit === undefined ? 'none' : <bdi>{unit}</bdi>) },
          { head: 'First values', wide: true, cell: ({ first }) => <bdi>{first.join(' · ')}</bdi> },
          { head: 'Beside figures', cell: ({ words }) => words.map((one) => `“${one}”`).join(', ') },
        ]}
        rows={columns}
        rowKey={({ column }) => `${column}`}
        empty="No column was found."
      />
    </Section>
  );
}
