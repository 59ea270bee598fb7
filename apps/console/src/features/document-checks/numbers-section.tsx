import type { DocumentCheck } from '../../client/answers.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { type Difference, differsBy, sinceInWords } from './numbers-in-words.js';

/** Every number of the document again: what differs, from what it was worked out, and whether the pages show it. */
export function NumbersSection({ found: { recomputed } }: { found: DocumentCheck }) {
  if (!recomputed) return null;
  const { numbers, count, differences, since, now, filesRead, pagesAlike } = recomputed;
  return (
    <Section question="What came out otherwise?" word="Numbers" aside={`Worked out again by ${now}.`}>
      {count === 0 && <p>Nothing: {numbers} numbers were compared, each with all its digits.</p>}
      {count > 0 && (
        <Table<Difference>
          caption={`What differs since ${sinceInWords(since)}`}
          columns={[
            { head: 'Place', wide: true, cell: ({ place }) => <bdi>{place}</bdi> },
            { head: 'Differs by', number: true, cell: differsBy },
            { head: 'In the document', number: true, cell: ({ kept }) => textOf(kept) },
            { head: 'Worked out now', number: true, cell: ({ now: today }) => textOf(today) },
          ]}
          rows={differences}
          rowKey={({ place, kept, now: today }) => `${place} ${kept} ${today}`}
          empty="Nothing differs."
        />
      )}
      {count > differences.length && (
        <p>
          And {count - differences.length} more: <code>breakbook recompute --json</code> tells of all.
        </p>
      )}
      <p>
        {filesRead
          ? 'Whatever raw files its runs have were read again, from what this lab keeps or the document carries.'
          : 'The raw files of its runs are not all at hand, so what each run showed was taken as the document says.'}
      </p>
      <p>
        {pagesAlike ? (
          <Outcome word="conforms" as="The pages are laid out from these data, to the byte." />
        ) : (
          <Outcome
            word="does not conform"
            as="The pages are not those that this version of the software lays out from these data."
          />
        )}
      </p>
    </Section>
  );
}

function textOf(json: string | undefined) {
  return json === undefined ? 'not there' : <code>{json}</code>;
}
