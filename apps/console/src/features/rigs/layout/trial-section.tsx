import type { Layout } from '@breakbook/lab';
import { printFixed } from '@breakbook/units';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { LayoutTrial } from '../../../client/answers.js';
import { trialOf } from '../../../client/layout-files.js';
import { Outcome } from '../../../parts/marks/outcome.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { Table } from '../../../parts/table.js';
import { Reading, Trouble } from '../../../parts/trouble.js';
import { ProblemTable } from '../../runs/log/refusal.js';
import { layoutOf } from './layout-draft.js';
import type { OfLayout } from './layout-editor.js';

/** Files up to this many bytes are read again at every change; longer ones when it is asked for. */
const READ_AT_ONCE = 4 * 1024 * 1024;
/** Typing pauses this long, ms, before the file is read again. */
const PAUSE = 400;

/** What the layout makes of the file: its first rows as they would be read, or every problem with its place. */
export function TrialSection({ draft, file }: Pick<OfLayout, 'draft' | 'file'>) {
  const read = layoutOf(draft);
  const text = 'layout' in read ? JSON.stringify(read.layout) : '';
  const [asked, setAsked] = useState('');
  const atOnce = file.size <= READ_AT_ONCE;
  useEffect(() => {
    if (!atOnce) return undefined;
    const timer = setTimeout(() => setAsked(text), PAUSE);
    return () => clearTimeout(timer);
  }, [text, atOnce]);
  const { data, error, isFetching, refetch } = useQuery({
    queryKey: ['layout trial', file.name, file.size, file.lastModified, asked],
    queryFn: ({ signal }) => trialOf(file, JSON.parse(asked) as Layout, signal),
    enabled: asked !== '',
    placeholderData: keepPreviousData,
    retry: false,
  });
  return (
    <Section
      question="What would be read from it?"
      word="Trial"
      aside="The whole file is read as a run’s would be. Nothing of it is kept."
    >
      {'problems' in read ? (
        <>
          <p>The layout is not whole yet.</p>
          <ProblemTable problems={read.problems} />
        </>
      ) : (
        !atOnce && (
          <button type="button" className="action" disabled={isFetching} onClick={() => setAsked(text)}>
            Read the file by this layout
          </button>
        )
      )}
      {error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : data && 'layout' in read ? (
        <Outcomes of={data} time={read.layout.time.column} stale={isFetching || asked !== text} />
      ) : (
        isFetching && <Reading what={file.name} />
      )}
    </Section>
  );
}

function Outcomes({ of, time, stale }: { of: LayoutTrial; time: string; stale: boolean }) {
  return (
    <div className="trial" aria-busy={stale}>
      <p role="status">
        {stale ? (
          'Reading again …'
        ) : of.read ? (
          <>
            <Outcome word="met" as="it reads" /> {printFixed(of.rows, 0)} rows
          </>
        ) : (
          <>
            <Outcome word="not met" as="it does not read" /> {printFixed(of.problemCount, 0)}{' '}
            {of.problemCount === 1 ? 'problem' : 'problems'}
          </>
        )}
      </p>
      {of.read ? <WhatIsRead of={of} time={time} /> : <ProblemTable problems={of.problems} />}
      {!of.read && of.problemCount > of.problems.length && (
        <p className="quiet">
          These are the first {of.problems.length} of {printFixed(of.problemCount, 0)} problems.
        </p>
      )}
    </div>
  );
}

function WhatIsRead({ of, time }: { of: Extract<LayoutTrial, { read: true }>; time: string }) {
  const { columns, first, flags } = of;
  const rows = (first[0] ?? []).map((_, row) => row);
  // Fifteen digits are all that a file can say; more would be those of the conversion.
  const number = (value: number | null | undefined, none: string) =>
    value === undefined || value === null ? none : String(Number(value.toPrecision(15)));
  return (
    <>
      <Table<number>
        caption="The first rows, as they would be read"
        columns={columns.map(({ name, unit, channel }, index) => ({
          head: (
            <>
              <bdi>{name}</bdi>
              {unit !== '' && `, ${unit}`}
              {channel !== undefined && <span className="quiet"> → {channel}</span>}
            </>
          ),
          number: true,
          cell: (row: number) => number(first[index]?.[row], 'no reading'),
        }))}
        rows={rows}
        rowKey={String}
        empty="The file has no rows."
      />
      <Table<(typeof columns)[number]>
        caption="The whole file, column by column, as its numbers stand there"
        columns={[
          { head: 'Column', cell: ({ name }) => <bdi>{name}</bdi> },
          { head: 'Unit', cell: ({ unit }) => unit },
          { head: 'Channel', cell: ({ name, channel }) => channel ?? (name === time ? 'the time' : 'not read') },
          { head: 'Readings', number: true, cell: ({ readings }) => printFixed(readings, 0) },
          { head: 'Smallest', number: true, cell: ({ smallest }) => number(smallest, 'none') },
          { head: 'Largest', number: true, cell: ({ largest }) => number(largest, 'none') },
        ]}
        rows={columns}
        rowKey={({ column }) => `${column}`}
        empty="No column is read."
      />
      {flags.length > 0 && (
        <>
          <h3>Taken with a flag</h3>
          <ProblemTable problems={flags} />
        </>
      )}
    </>
  );
}
