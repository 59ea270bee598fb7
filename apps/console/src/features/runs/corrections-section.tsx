import { useQuery } from '@tanstack/react-query';
import type { SaidOfRun } from '../../client/answers.js';
import { runHistoryQuery } from '../../client/queries.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';
import type { RunOnSheet } from './use-run-sheet.js';

/** What was corrected, with what it said before, and what was entered more than a day after it happened. */
export function CorrectionsSection({ answer, around }: RunOnSheet) {
  const { data } = useQuery(runHistoryQuery(answer.run.run));
  const told = (data?.items ?? []).filter(({ version, late }) => version > 1 || late);
  if (!data || told.length === 0) return null;
  return (
    <Section
      question="What was corrected, or entered late?"
      word="Corrections"
      aside="Nothing is overwritten: a correction is a further version, and the one before stays."
    >
      <Table
        caption="Corrections and late entries, in the order in which they were entered"
        columns={[
          {
            head: 'Entered',
            cell: ({ enteredAt }) => <span className="whole">{moment(enteredAt, around.lab.zone)}</span>,
          },
          { head: 'What', cell: (one) => whatOf(one) },
          {
            head: 'Happened',
            wide: true,
            cell: ({ happenedAt, late }) => `${moment(happenedAt, around.lab.zone)}${late ? '; entered late' : ''}`,
          },
          { head: 'By', wide: true, cell: ({ by }) => <Who people={around.people} person={by} /> },
          { head: 'Reason', wide: true, cell: ({ reason }) => (reason === undefined ? 'none' : <bdi>{reason}</bdi>) },
          {
            head: 'Before, and now',
            wide: true,
            cell: ({ differences }) =>
              differences.length === 0
                ? 'first entry'
                : differences.map(({ pointer, place, kept, now }) => (
                    <span key={pointer} className="under">
                      {place}: <del>{kept ?? 'nothing'}</del> <ins>{now ?? 'nothing'}</ins>
                    </span>
                  )),
          },
        ]}
        rows={told}
        rowKey={({ of, name, version, enteredAt }) => `${of} ${name} ${version} ${enteredAt}`}
        empty="Nothing."
      />
    </Section>
  );
}

function whatOf({ of, name, version }: SaidOfRun): string {
  return `${of}${name === undefined ? '' : ` of ${name}`}, version ${version}`;
}
