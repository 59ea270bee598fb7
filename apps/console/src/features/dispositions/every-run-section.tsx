import { limitName } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { SheetToSign } from '../../client/answers.js';
import { labQuery, peopleQuery } from '../../client/queries.js';
import { runAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import { Attempts } from '../lots/attempts.js';

/** Every run of the lot whatever became of it, and how often was tried. */
export function EveryRunSection({ sheet }: { sheet: SheetToSign['sheet'] }) {
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { tell } = usePrint();
  const { runs, untested, attempts, retests } = sheet;
  return (
    <Section
      question="Which runs were made, and what became of each?"
      word="Every run"
      aside={`All ${runs.length}, invalid and void ones too, in the order recorded. Times are those of ${(lab?.zone ?? 'UTC').replaceAll('_', ' ')}.`}
    >
      <Table
        caption="Every run of the lot"
        columns={[
          { head: 'Run', cell: ({ run }) => <Link to={runAddress(sheet.lot, run)}>{run}</Link> },
          {
            head: 'Specimen',
            cell: ({ specimen, attempt }) => `${specimen}${attempt > 1 ? `, run ${attempt} of it` : ''}`,
          },
          { head: 'Line', cell: ({ line }) => line },
          {
            head: 'Began',
            cell: ({ startedAt }) => <span className="whole">{moment(startedAt, lab?.zone ?? 'UTC')}</span>,
          },
          { head: 'By', wide: true, cell: ({ operator }) => <Who people={people} person={operator} /> },
          {
            head: 'Validity',
            wide: true,
            cell: ({ validity, validityReason, decidedBy }) => (
              <>
                <Outcome word={validity} />
                {(validityReason !== undefined || decidedBy !== undefined) && (
                  <span className="quiet small under">
                    {validityReason}
                    {validityReason !== undefined && decidedBy !== undefined && ', '}
                    {decidedBy !== undefined && <Who people={people} person={decidedBy} />}
                  </span>
                )}
              </>
            ),
          },
          {
            head: 'Reviewed by',
            wide: true,
            cell: ({ reviewedBy }) =>
              reviewedBy === undefined ? 'nobody yet' : <Who people={people} person={reviewedBy} />,
          },
          {
            head: 'In the claim',
            wide: true,
            cell: ({ inClaim, because }) => (inClaim ? 'yes' : `no: ${tell(because)}`),
          },
          {
            head: 'Against its limits',
            wide: true,
            cell: ({ verdicts }) =>
              verdicts.length === 0
                ? 'no verdict'
                : verdicts.map(({ limit, outcome }) => (
                    <span key={limitName(limit)} className="under">
                      {limitName(limit)}: <Outcome word={outcome} />
                    </span>
                  )),
          },
        ]}
        rows={runs}
        rowKey={({ run }) => run}
        empty="No run was made."
      />
      {untested.length > 0 && <p>Received and not tested: {untested.join(', ')}.</p>}
      {attempts && <Attempts of={attempts} />}
      {retests.map(({ number, line, runs: allowed, used, reason, by }) => (
        <p key={number}>
          Retest {number}, authorised by <Who people={people} person={by} />: {allowed} on line {line}, of which{' '}
          {used.length === 0 ? 'none is made' : `${used.join(', ')} ${used.length === 1 ? 'is' : 'are'} made`}.{' '}
          <bdi>{reason}</bdi>
        </p>
      ))}
    </Section>
  );
}
