import type { LossOfPressure, Method, MovableInstant, Run, TraceEvent } from '@breakbook/lab';

/** A moment of a run's record that somebody may confirm or put elsewhere, as it stands now. */
export interface Movable {
  key: string;
  word: string;
  instant: MovableInstant;
  passage?: number;
  /** Seconds; undefined where none is in force. */
  at: number | undefined;
  loss: LossOfPressure | undefined;
  /** Is it asked how the pressure was lost? */
  asksLoss: boolean;
  moved: TraceEvent['moved'];
}

const OF_TEST: Record<Method['test'], readonly MovableInstant[]> = {
  burst: ['failure'],
  heat: ['failure'],
  impact: ['contact begins', 'contact ends'],
  table: [],
};

/** Which moments of this run can be moved: one failure, or the two ends of each recorded contact. */
export function movableOf(
  test: Method['test'],
  { passages = [] }: Pick<Run, 'passages'>,
  events: readonly TraceEvent[],
): Movable[] {
  const strikes = test === 'impact' && passages.length > 0 ? passages.map(({ passage }) => passage) : [undefined];
  return strikes.flatMap((passage) =>
    OF_TEST[test].map((instant): Movable => {
      const now = events.find((one) => one.name === instant && (passage === undefined || one.passage === passage));
      return {
        key: `${passage ?? ''} ${instant}`,
        word: passage === undefined ? instant : `${instant}, passage ${passage}`,
        instant,
        ...(passage === undefined ? {} : { passage }),
        at: now?.time,
        loss: now && test === 'burst' ? (now.loss ?? 'burst') : undefined,
        asksLoss: test === 'burst',
        moved: now?.moved,
      };
    }),
  );
}

/** Where a moment stands now, in a sentence. */
export function standing({ at, loss, moved }: Pick<Movable, 'at' | 'loss' | 'moved'>): string {
  if (at === undefined) return 'The record alone shows none.';
  const as = loss === undefined ? '' : ` (${loss})`;
  return `${moved ? 'A person put it at' : 'The checks propose'} ${Number(at.toFixed(6))} s${as}.`;
}

/** The moment that a place in the record of one passage is meant for: the same end of that passage's contact. */
export function movableAt(all: readonly Movable[], chosen: Movable, passage: number | undefined): Movable {
  if (passage === undefined || chosen.passage === undefined || chosen.passage === passage) return chosen;
  return all.find((one) => one.instant === chosen.instant && one.passage === passage) ?? chosen;
}
