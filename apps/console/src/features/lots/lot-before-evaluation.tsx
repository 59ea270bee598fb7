import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { LotRecord, RunInList, SpecimenRecord } from '../../client/answers.js';
import { labQuery, lotRecordQuery, peopleQuery, runsOfQuery, specimensOfQuery } from '../../client/queries.js';
import { logRunAddress, productAddress, runAddress, specimenAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { day } from '../../parts/moment.js';
import { RunTable } from '../../parts/run-table.js';
import { HeadStrip, Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { Who } from '../../parts/who.js';
import { OldResultsSection } from '../old-results/old-results-section.js';
import { useMe } from '../people/me.js';
import { FlagsOfLot } from '../safety-flags/flags-of-lot.js';
import { SpecimenState } from '../specimens/specimens-page.js';
import { BatchesSection } from './batches-section.js';
import { LotWork } from './evaluate.js';

/** A lot that was never evaluated: what was drawn and run so far, and the way to its first evaluation. */
export function LotBeforeEvaluation({ lot }: { lot: string }) {
  const record = useQuery(lotRecordQuery(lot));
  const specimens = useQuery(specimensOfQuery(lot));
  const runs = useQuery(runsOfQuery('lot', lot));
  const error = record.error ?? specimens.error ?? runs.error;
  if (record.data && specimens.data && runs.data)
    return <BeforeSheet lot={record.data} specimens={specimens.data} runs={runs.data} />;
  if (!error) return <Reading what={`lot ${lot}`} />;
  return (
    <Trouble
      error={error}
      onAgain={() => {
        for (const one of [record, specimens, runs]) void one.refetch();
      }}
    />
  );
}

interface BeforeSheetProps {
  lot: LotRecord;
  specimens: readonly SpecimenRecord[];
  runs: readonly RunInList[];
}

function BeforeSheet({ lot, specimens, runs }: BeforeSheetProps) {
  const { duties } = useMe();
  const { data: people = [] } = useQuery(peopleQuery);
  const { data: lab } = useQuery(labQuery);
  const { content, closed, sampling } = lot;
  return (
    <>
      <HeadStrip
        noun="Lot"
        name={lot.key}
        of={<Link to={productAddress(content.product)}>{content.product}</Link>}
        outcome={<Outcome word="not evaluated" large />}
        sentence={
          closed
            ? 'It is closed to further specimens and runs.'
            : 'It was never evaluated, so nothing is said of what it will hold.'
        }
        next={<Next runs={runs} specimens={specimens} />}
        actions={
          <>
            <LotWork lot={lot.key} />
            {duties.includes('record') && !closed && (
              <Link className="action" to={logRunAddress()}>
                Log a run
              </Link>
            )}
          </>
        }
        facts={[
          { term: 'Kind', says: `${content.kind} lot of ${content.size}` },
          { term: 'Made', says: `${day(content.madeFrom)} to ${day(content.madeTo)}` },
          {
            term: 'Drawn',
            says: sampling ? (
              <>
                {day(sampling.drawnOn)}, by <Who people={people} person={sampling.drawnBy} />
              </>
            ) : (
              'not by this lab: results concern the sample as received'
            ),
          },
        ]}
      />
      <FlagsOfLot lot={lot.key} />
      <Section question="Which specimens were drawn?" word="Specimens">
        <Table<SpecimenRecord>
          caption="Specimens of the lot"
          columns={[
            { head: 'Specimen', cell: ({ key }) => <Link to={specimenAddress(key)}>{key}</Link> },
            { head: 'Serial', cell: ({ content: { serial } }) => <bdi>{serial ?? 'none'}</bdi> },
            { head: 'Origin', cell: ({ content: { origin } }) => origin },
            {
              head: 'State',
              cell: (one) => <SpecimenState of={one} />,
            },
          ]}
          rows={specimens}
          rowKey={({ key }) => key}
          empty="No specimen was received yet."
        />
      </Section>
      <Section question="Which runs were made?" word="Runs">
        <RunTable
          runs={runs}
          people={people}
          zone={lab?.zone ?? 'UTC'}
          empty="No run is recorded yet. The first run is logged against one of the specimens drawn."
        />
      </Section>
      <BatchesSection lot={lot.key} />
      <OldResultsSection of="lots" named={lot.key} />
    </>
  );
}

function Next({ runs, specimens }: Pick<BeforeSheetProps, 'runs' | 'specimens'>) {
  const open = runs.filter(({ validity }) => validity === 'not decided');
  if (runs.length === 0) return `a run is logged against each of its ${specimens.length} specimens.`;
  if (open.length > 0)
    return (
      <>
        the validity of {open.length === 1 ? 'run' : 'runs'}{' '}
        {open.map(({ run, lot }, index) => (
          <span key={run}>
            {index > 0 && ', '}
            <Link to={runAddress(lot, run)}>{run}</Link>
          </span>
        ))}{' '}
        is to be decided by somebody who did not record {open.length === 1 ? 'it' : 'them'}.
      </>
    );
  return 'every run is decided, and the lot can be evaluated.';
}
