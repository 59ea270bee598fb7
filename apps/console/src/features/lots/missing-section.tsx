import { Link } from 'react-router';
import type { LotAnswer } from '../../client/answers.js';
import { runAddress } from '../../parts/addresses.js';
import { capital } from '../../parts/capital.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { RefusedFiles } from '../runs/refused-files.js';

/** What is left out of the claims, what could not be read, what was never tested, and what a reader must know besides. */
export function MissingSection({ answer }: { answer: LotAnswer }) {
  const { tell } = usePrint();
  const { bundle, lot, refusals } = answer;
  const leftOut = lot.lines.flatMap(({ line, entries }) =>
    entries.filter(({ inClaim }) => !inClaim).map((entry) => ({ ...entry, line })),
  );
  const tested = new Set(bundle.runs.map(({ specimen }) => specimen));
  const untested = bundle.specimens.filter(({ specimen }) => !tested.has(specimen));
  return (
    <Section question="What is excluded or missing?" word="Excluded or missing">
      <Table
        caption="Runs that are not in the claim of their plan line, each with its reason"
        columns={[
          { head: 'Run', cell: ({ run }) => <Link to={runAddress(lot.lot, run)}>{run}</Link> },
          { head: 'Specimen', cell: ({ specimen }) => specimen },
          { head: 'Line', cell: ({ line }) => line },
          { head: 'Left out because', wide: true, cell: ({ because }) => capital(tell(because)) },
        ]}
        rows={leftOut}
        rowKey={({ run }) => run}
        empty="Every run recorded is in the claim of its plan line."
      />
      {refusals.map(({ run, problems }) => (
        <RefusedFiles key={run} run={run} problems={problems} />
      ))}
      {untested.length > 0 && (
        <p>
          Received and not tested: {untested.length === 1 ? 'specimen' : 'specimens'}{' '}
          {untested.map(({ specimen }) => specimen).join(', ')}.
        </p>
      )}
      {lot.notes.length > 0 && (
        <>
          <h3>A reader must also know</h3>
          <ul className="notes">
            {lot.notes.map((note) => (
              <li key={note}>{tell(note)}</li>
            ))}
          </ul>
        </>
      )}
    </Section>
  );
}
