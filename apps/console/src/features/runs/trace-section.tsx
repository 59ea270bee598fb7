import type { TraceEvent } from '@breakbook/lab';
import { printFixed, QUANTITY_KINDS } from '@breakbook/units';
import { useState } from 'react';
import { TracePlot } from '../../parts/figures/lab-figures.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { usePrint } from '../../parts/units/reader.js';
import { useMe } from '../people/me.js';
import { MomentsTable } from './moments/moments-table.js';
import { movableAt, movableOf } from './moments/movable.js';
import { MoveMoment } from './moments/move-moment.js';
import { WhatMoved } from './moments/what-moved.js';
import type { RunOnSheet } from './use-run-sheet.js';
import { LookCloser } from './zoom/look-closer.js';

/** What did the specimen do? The trace with the moments the results were read from. */
export function TraceSection({ answer: { run, reading, trace }, record, around }: RunOnSheet) {
  const { quantity } = usePrint();
  const me = useMe();
  const { method } = around;
  const movable = movableOf(method.test, run, reading.events);
  const [key, setKey] = useState('');
  const [at, setAt] = useState('');
  const chosen = movable.find((one) => one.key === key) ?? movable[0];
  // Blind to limits, and while nothing is decided: after that what was recorded stands.
  const mayMove = run.validity === undefined && me.duties.includes('record') && run.files.length > 0 && chosen;
  const pick = (time: number, passage: number | undefined) => {
    if (!chosen) return;
    setKey(movableAt(movable, chosen, passage).key);
    setAt(`${Number(time.toFixed(6))}`);
  };
  const printed = ({ channel, value }: TraceEvent) => {
    const kind = method?.channels.find((one) => one.channel === channel)?.kind;
    // Channels are judged in the stored unit of their kind; one that was computed, in the unit it is drawn in.
    const unit =
      kind === undefined ? trace?.channels.find((one) => one.channel === channel)?.unit : QUANTITY_KINDS[kind].stored;
    return unit === undefined ? printFixed(value, 2) : quantity(value, unit);
  };
  const keyed = run.files.length === 0;
  return (
    <Section question="What did the specimen do?" word="Trace">
      {trace === null ? (
        <p className="quiet">
          {keyed
            ? 'This run was keyed from a results table, so there is no trace.'
            : 'No channel of this run can be drawn.'}
        </p>
      ) : (
        <TracePlot of={trace} />
      )}
      {!keyed && <LookCloser run={run.run} events={reading.events} {...(mayMove ? { onPick: pick } : {})} />}
      {!keyed && <MomentsTable events={reading.events} people={around.people} printed={printed} />}
      {(run.instants ?? []).length > 0 && <WhatMoved {...reading} />}
      {mayMove && (
        <Fold word="Confirm a moment, or put it elsewhere">
          <MoveMoment
            key={record.version}
            record={record}
            lot={around.lot}
            movable={movable}
            chosen={chosen}
            onChoose={setKey}
            marked={reading.events.filter(
              (event) =>
                chosen.passage === undefined || event.passage === undefined || event.passage === chosen.passage,
            )}
            at={at}
            onAt={setAt}
          />
        </Fold>
      )}
    </Section>
  );
}
