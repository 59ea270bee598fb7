import { evaluateLot } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import { isNotEvaluated, LOT_FOLDER_DOCUMENTS, type Reading, Run } from '@breakbook/lab';
import { PostgresRawStore, tables } from '@breakbook/records';
import { evaluateStored, importLot, labOf } from '@breakbook/service';
import { describe, expect, it } from 'vitest';
import { testDatabase } from '../database.ts';
import { folder } from './lot-folder.fixture.ts';

const { bundle, filesOf } = folder('dunlin-42-second-lot');
const [first] = bundle.runs;
if (!first) throw new Error('the sample lot has runs');
const burst = (reading: Reading | undefined) => {
  const value = reading?.characteristics.find(({ characteristic }) => characteristic === 'burstPressure')?.value;
  if (!value || isNotEvaluated(value) || value.kind === 'between') throw new Error('a burst has a pressure');
  return value;
};
const readingIn = (evaluation: ReturnType<typeof evaluateLot>) =>
  evaluation.runs.find(({ run }) => run.run === first.run)?.reading;

/** The same lot, its first burst put five seconds before where the record alone has it. */
function movedLot(): { moved: typeof bundle; at: number } {
  const proposed = readingIn(evaluateLot(bundle, filesOf));
  const failure = proposed?.events.find(({ name }) => name === 'failure');
  if (!failure) throw new Error('the first run of the sample lot burst');
  const at = failure.time - 5;
  const run = Run.parse({
    ...first,
    instants: [
      {
        instant: 'failure',
        at,
        reason: 'the first crack is seen on the film',
        person: first?.operator,
        movedAt: first?.startedAt,
      },
    ],
  });
  return { moved: { ...bundle, runs: [run, ...bundle.runs.slice(1)] }, at };
}

describe('a lot folder whose run file moves a moment', () => {
  const { moved, at } = movedLot();
  const [before, after] = [evaluateLot(bundle, filesOf), evaluateLot(moved, filesOf)];

  it('is judged by the moved moment, and says what was proposed', () => {
    expect(LOT_FOLDER_DOCUMENTS).toContain('runs.json');
    const [was, is] = [burst(readingIn(before)), burst(readingIn(after))];
    expect(is.value).toBeLessThan(was.value);
    const reading = readingIn(after);
    expect(reading?.events.find(({ name }) => name === 'failure')).toMatchObject({
      moved: { by: first.operator, proposed: expect.closeTo(at + 5, 9) },
    });
    expect(reading?.checks.find(({ check }) => check === 'moved failure')).toMatchObject({ outcome: 'flag' });
    // No other run of the lot is touched.
    const others = (evaluation: typeof before) => evaluation.runs.filter(({ run }) => run.run !== first.run);
    expect(canonicalJson(others(after).map(({ reading: one }) => one))).toBe(
      canonicalJson(others(before).map(({ reading: one }) => one)),
    );
  });

  it('is judged alike from the folder and from the tables, to the last digit', async () => {
    const database = await testDatabase();
    try {
      const store = new PostgresRawStore();
      await importLot(database.records, store, moved, filesOf);
      const reader = database.records.read((await labOf(database.records, moved)).labId);
      const { evaluation } = await evaluateStored(reader, store, moved.lot.lot);
      expect(canonicalJson(evaluation.result)).toBe(canonicalJson(after.result));
      const run = await reader.named(tables.Run, first.run);
      const kept = (await reader.find(tables.Reading, { runId: run.id })).at(-1)?.content;
      expect(kept && burst(kept)).toEqual(burst(readingIn(after)));
    } finally {
      await database.close();
    }
  }, 120_000);
});
