import type { LotAttempts } from '@breakbook/lab';
import { Table } from '../../parts/table.js';

/** How often was tried: every run counted, specimens that were run more than once, and failures followed by unplanned passes. */
export function Attempts({ of: attempts }: { of: LotAttempts }) {
  return (
    <>
      <Table
        caption="How often was tried, line by line"
        columns={[
          { head: 'Line', cell: ({ line }) => line },
          { head: 'Planned', number: true, cell: ({ planned }) => planned },
          { head: 'Runs', number: true, cell: (one) => one.runs },
          { head: 'Valid', number: true, cell: ({ valid }) => valid },
          { head: 'Invalid', number: true, cell: ({ invalid }) => invalid },
          { head: 'Void', number: true, cell: (one) => one.void },
          { head: 'Not decided', number: true, cell: ({ notDecided }) => notDecided },
          { head: 'Valid, not asked for by the plan', cell: ({ unplanned }) => unplanned.join(', ') || 'none' },
        ]}
        rows={attempts.lines}
        rowKey={({ line }) => line}
        empty="The plan has no line."
      />
      {attempts.repeated.map(({ specimen, runs: own }) => (
        <p key={specimen}>
          Specimen {specimen} was run {own.length} times: {own.join(', ')}.
        </p>
      ))}
      {attempts.marks.map((mark) => (
        <p key={mark}>
          <strong>Mark</strong> {mark}
        </p>
      ))}
    </>
  );
}
