import { type Method, type MovableInstant, type MovedInstant, Refusal, type Run, shown } from '@breakbook/lab';
import { firstAt } from '../features/vented-zero.js';
import { seconds } from '../features/words.js';

/** A moment that a person stated, with its place in the run. */
export interface StatedInstant {
  index: number;
  moved: MovedInstant;
}

const MOVABLE: Record<Method['test'], readonly MovableInstant[]> = {
  burst: ['failure'],
  heat: ['failure'],
  impact: ['contact begins', 'contact ends'],
  table: [],
};

/** Refuses a stated moment that a run of this method has not, or that is of a passage the run has not. */
export function refuseForeignInstants(run: Run, { test, method }: Method): void {
  for (const [index, { instant, passage, loss }] of (run.instants ?? []).entries()) {
    const movable = MOVABLE[test];
    const pointer = `/instants/${index}`;
    if (!movable.includes(instant))
      throw new Refusal({
        code: 'body.enum',
        pointer: `${pointer}/instant`,
        detail: `Run ${run.run}: a run of method ${method} (${test}) has no moment "${instant}" that can be moved.`,
        found: instant,
        expected: movable.length > 0 ? movable.join(', ') : 'no moment: this method reads no record',
        action: 'Name a moment of this kind of test.',
      });
    if (loss !== undefined && test !== 'burst')
      throw new Refusal({
        code: 'body.unknown-field',
        pointer: `${pointer}/loss`,
        detail: `Run ${run.run}: how the pressure was lost is said of a burst; method ${method} is of another kind.`,
        found: loss,
        action: 'Leave "loss" out; the examination says what broke.',
      });
    const passages = (run.passages ?? []).map((one) => one.passage);
    const one = passages.length > 0 ? passages.join(', ') : 'no passage: the run is one loading';
    if (test === 'burst' ? passage !== undefined : passage !== undefined && !passages.includes(passage))
      throw new Refusal({
        code: 'body.not-found',
        pointer: `${pointer}/passage`,
        detail: `Run ${run.run} has no passage ${passage} in which a moment could be moved.`,
        found: `${passage}`,
        expected: test === 'burst' ? 'no passage: a burst is one loading' : one,
        action: 'Name a passage of the run, or leave it out where there is one.',
      });
    if (passage === undefined && passages.length > 1 && test === 'impact')
      throw new Refusal({
        code: 'body.missing-field',
        pointer: `${pointer}/passage`,
        detail: `Run ${run.run} has ${passages.length} strikes, and the moved moment names none of them.`,
        expected: one,
        action: 'Say which strike the moment belongs to.',
      });
  }
}

/** A stated moment of a passage; the only passage may go without a name. */
export function statedInstant(run: Run, instant: MovableInstant, passage?: number): StatedInstant | undefined {
  const index = (run.instants ?? []).findIndex(
    (one) => one.instant === instant && (passage === undefined || one.passage === undefined || one.passage === passage),
  );
  const moved = run.instants?.[index];
  return moved && { index, moved };
}

/** The first sample at or after a stated moment. Throws a `Refusal` where the record does not hold it. */
export function sampleAt(
  { index, moved }: StatedInstant,
  { time, file, within = 'the record' }: { time: Float64Array; file: string; within?: string },
): number {
  const [first, last] = [time[0] as number, time.at(-1) as number];
  if (moved.at >= first && moved.at <= last) return firstAt(time, moved.at);
  throw new Refusal({
    code: 'body.range',
    file: shown(file),
    pointer: `/instants/${index}/at`,
    detail: `${shown(file)}: "${moved.instant}" was moved to ${moved.at} s, and ${within} runs from ${seconds(first)} to ${seconds(last)} by its own clock.`,
    found: `${moved.at}`,
    expected: `${first} to ${last} s`,
    action: 'Give the moment in seconds on the clock of the record, as its time column has them.',
  });
}
