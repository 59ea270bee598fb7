import { printSignificant } from '@breakbook/units';
import { type DocumentCheck } from '../../client/answers.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';

type Recomputed = NonNullable<DocumentCheck['recomputed']>;
type Difference = Recomputed['differences'][number];

/** Every number of the document again, each beside what it comes to now. */
export function NumbersSection({ found: { recomputed } }: { found: DocumentCheck }) {
  if (!recomputed) return null;
  const { numbers, count, differences, since, now, filesRead, pagesAlike } = recomputed;
  return (
    <Section question="Does each number come out the same?" word="Numbers" aside={`Worked out now by ${now}.`}>
      {count === 0 ? (
        <p>
          <Outcome word="conforms" as={`${numbers} numbers: each identical, to its last bit.`} />
        </p>
      ) : (
        <>
          <p>
            <Outcome
              word="does not conform"
              as={`${numbers} numbers: ${count} ${count === 1 ? 'place differs' : 'places differ'}; every other number is identical, to its last bit.`}
            />
          </p>
          <Table<Difference>
            caption={`What differs since ${since.methods.join(', ')} by ${since.software}`}
            columns={[
              { head: 'Place', wide: true, cell: ({ place }) => <bdi>{place}</bdi> },
              { head: 'In the document', number: true, cell: ({ kept }) => textOf(kept) },
              { head: 'Worked out now', number: true, cell: ({ now: today }) => textOf(today) },
              { head: 'Differs by', number: true, cell: differsBy },
            ]}
            rows={differences}
            rowKey={({ place, kept, now: today }) => `${place} ${kept} ${today}`}
            empty="Nothing differs."
          />
          {count > differences.length && (
            <p>
              And {count - differences.length} more: <code>breakbook recompute --json</code> tells of all.
            </p>
          )}
        </>
      )}
      <p>
        {filesRead
          ? 'The raw files of its runs were read again, from what this lab keeps or the document carries.'
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

/** What is there now less what was kept, where both are numbers. */
function differsBy({ kept, now }: Difference): string {
  const difference = Number(now) - Number(kept);
  if (kept === undefined || now === undefined || !Number.isFinite(difference)) return 'no number';
  return `${difference > 0 ? '+' : ''}${printSignificant(difference, 3)}`;
}
