import { type TraceEvent } from '@breakbook/lab';
import { useState } from 'react';
import { TraceZoom } from './trace-zoom.js';

/** The trace at any zoom, asked of the service once somebody wants to see it. */
export function LookCloser({ run, events }: { run: string; events: readonly TraceEvent[] }) {
  const [open, setOpen] = useState(false);
  return (
    <details onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>Look closer, down to single samples</summary>
      {open && <TraceZoom run={run} events={events} />}
    </details>
  );
}
