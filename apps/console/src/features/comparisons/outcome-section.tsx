import type { ComparisonResult, Person, SetAside } from '@breakbook/lab';
import type { ReactNode } from 'react';
import { moment, withMoments } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import { ItemFindings } from './item-findings.js';
import { Level } from './level.js';
import { SpecimenLink } from './specimen-link.js';

interface OutcomeSectionProps {
  result: ComparisonResult;
  zone: string;
  children: ReactNode;
}

/** What it came to: in one level, in sentences, and item by item. `children` say how far it is settled. */
export function OutcomeSection({ result, zone, children }: OutcomeSectionProps) {
  const { tell } = usePrint();
  return (
    <Section
      question="What did it come to?"
      word="Conclusion"
      aside="How well items agree with what they are compared with, and no more than that: not who made them, and not whether anything is safe."
    >
      <p>
        <Level of={result.level} large />
      </p>
      {children}
      <ul className="notes">
        {result.sentences.map((sentence) => (
          <li key={sentence}>{tell(sentence)}</li>
        ))}
      </ul>
      {result.items.length > 0 && <ItemFindings caption="Item by item" items={result.items} />}
      {result.notes.length > 0 && (
        <ul className="notes">
          {result.notes.map((note) => (
            <li key={note}>{withMoments(tell(note), zone)}</li>
          ))}
        </ul>
      )}
    </Section>
  );
}

/** What was not examined: printed with every conclusion, and here before there is one. */
export function NotExaminedSection(given: {
  notExamined: readonly string[];
  setAside: readonly SetAside[];
  people: readonly Person[];
  zone: string;
}) {
  const { notExamined, setAside, people, zone } = given;
  return (
    <Section question="What was not examined?" word="Not examined" aside="Nothing is concluded about any of it.">
      <ul className="notes">
        {notExamined.map((one) => (
          <li key={one}>
            <bdi>{one}</bdi>
          </li>
        ))}
      </ul>
      {setAside.length > 0 && (
        <Table<SetAside>
          caption="Items that are not compared at all"
          columns={[
            { head: 'Item', cell: ({ specimen }) => <SpecimenLink of={specimen} /> },
            { head: 'Because', wide: true, cell: ({ because }) => <bdi>{because}</bdi> },
            {
              head: 'Said by',
              wide: true,
              cell: ({ by, at }) => (
                <>
                  <Who people={people} person={by} />, <span className="whole">{moment(at, zone)}</span>
                </>
              ),
            },
          ]}
          rows={setAside}
          rowKey={({ specimen }) => specimen}
          empty=""
        />
      )}
    </Section>
  );
}
