import { shown } from '@breakbook/lab';
import { printFixed } from '@breakbook/units';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import type { RunOnSheet } from './use-run-sheet.js';

/** Which bytes is all this read from? Their digests, so that anybody can check them against the files of the rig. */
export function RawSection({ answer: { run, reading } }: RunOnSheet) {
  return (
    <Section
      question="Which bytes is this read from?"
      word="Raw files"
      aside={`Read by ${reading.software}${run.layoutRevision === undefined ? '' : `, layout revision ${run.layoutRevision}`}.`}
    >
      <Table
        caption="Raw files, kept bit for bit"
        columns={[
          { head: 'File', cell: ({ name }) => <bdi>{shown(name)}</bdi> },
          {
            head: 'Bytes',
            number: true,
            cell: ({ bytes }) => printFixed(bytes, 0),
          },
          { head: 'Rows', number: true, cell: ({ rows }) => printFixed(rows, 0) },
          { head: 'SHA-256', wide: true, cell: ({ sha256 }) => <code>{sha256}</code> },
        ]}
        rows={reading.files}
        rowKey={({ name }) => name}
        empty="This run has no file: its values were keyed."
      />
    </Section>
  );
}
