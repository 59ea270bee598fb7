import { Link } from 'react-router';
import type { LotAnswer } from '../../client/answers.js';
import { runAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Who } from '../../parts/who.js';

/** Every run of the lot, invalid ones too, in the order recorded. */
export function RunsSection({ answer: { bundle, judgements, refusals } }: { answer: LotAnswer }) {
  const { lot, runs, people, lab } = bundle;
  const reasonOf = (run: string) => judgements.find((one) => one.run === run)?.validityReason;
  const refused = new Set(refusals.map(({ run }) => run));
  return (
    <Section
      question="Which runs were made?"
      word="Runs"
      aside={`Times are those of ${lab.zone.replaceAll('_', ' ')}.`}
    >
      <Table
        caption="All runs of the lot, valid or not, in the order recorded"
        columns={[
          { head: 'Run', cell: ({ run }) => <Link to={runAddress(lot.lot, run)}>{run}</Link> },
          { head: 'Specimen', cell: ({ specimen }) => specimen },
          { head: 'Line', cell: ({ planLine }) => planLine },
          { head: 'Began', cell: ({ startedAt }) => <span className="whole">{moment(startedAt, lab.zone)}</span> },
          { head: 'Rig', cell: ({ rig }) => rig ?? 'keyed' },
          { head: 'By', wide: true, cell: ({ operator }) => <Who people={people} person={operator} /> },
          {
            head: 'Ended because',
            cell: ({ examination }) => <span className="whole">{examination?.endReason ?? 'not examined'}</span>,
          },
          {
            head: 'Validity',
            wide: true,
            cell: ({ run, validity }) => (
              <>
                <Outcome word={validity?.validity ?? 'not decided'} />
                {reasonOf(run) !== undefined && <span className="quiet small under">{reasonOf(run)}</span>}
                {refused.has(run) && <span className="quiet small under">its file was refused</span>}
              </>
            ),
          },
        ]}
        rows={runs}
        rowKey={({ run }) => run}
        empty="No run is recorded yet. The first run is logged against one of the specimens drawn."
      />
    </Section>
  );
}
