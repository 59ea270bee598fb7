import type { TraceEvent } from '@breakbook/lab';
import { useState } from 'react';
import { type OnPick, TraceZoom } from './trace-zoom.js';

interface LookCloserProps {
  run: string;
  events: readonly TraceEvent[];
  /** Hears which moment of which passage was pointed at. */
  onPick?: OnPick;
}

/** The trace at any zoom, asked of the service once somebody wants to see it. */
export function LookCloser({ run, events, onPick }: LookCloserProps) {
  const [open, setOpen] = useState(false);
  return (
    <details onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>Look closer, down to single samples</summary>
      {open && <TraceZoom run={run} events={events} onPick={onPick} />}
    </details>
  );
}
