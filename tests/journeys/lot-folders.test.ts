import { evaluateLot } from '@breakbook/acceptance';
import { canonicalJson } from '@breakbook/evidence';
import { Refusal, type Run } from '@breakbook/lab';
import { type Actor, PostgresRawStore, tables, verifyRecords, waitingFiles } from '@breakbook/records';
import { evaluateStored, importLot, labOf, recordRun } from '@breakbook/service';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runsOfCalibration, runsOfSensor } from '../../apps/service/src/calibrations/touched-runs.ts';
import { type TestDatabase, testDatabase } from '../database.ts';
import { FOLDERS, folder } from './lot-folder.fixture.ts';

const store = new PostgresRawStore();

describe('lot folders, kept by the service', () => {
  let database: TestDatabase;
  beforeAll(async () => {
    database = await testDatabase();
    for (const name of FOLDERS) {
      const { bundle, filesOf } = folder(name);
      await importLot(database.records, store, bundle, filesOf);
    }
  }, 180_000);
  afterAll(() => database.close());

  it.each(FOLDERS)('%s is judged alike from the folder and from the tables, to the last digit', async (name) => {
    const { bundle, filesOf } = folder(name);
    const fromFolder = evaluateLot(bundle, filesOf);
    const reader = database.records.read((await labOf(database.records, bundle)).labId);
    const { evaluation: fromTables } = await evaluateStored(reader, store, bundle.lot.lot);
    expect(numbersOf(fromTables)).toBe(numbersOf(fromFolder));

    const lot = await reader.named(tables.Lot, bundle.lot.lot);
    const [kept] = await reader.find(tables.Evaluation, { lotId: lot.id });
    expect(canonicalJson(kept?.content)).toBe(canonicalJson(fromFolder.result));
  });

  it('tells which runs a sensor and a calibration stood behind: those whose readings name them', async () => {
    const { labId } = await labOf(database.records, folder(FOLDERS[0] ?? '').bundle);
    const reader = database.records.read(labId);
    const readings = (await reader.find(tables.Reading, {})).map(({ content }) => content);
    const naming = (which: 'sensor' | 'calibration', key: string) =>
      readings
        .filter(({ calibrations }) => calibrations.some((one) => one[which] === key))
        .map(({ run }) => run)
        .sort();
    const touched = async (list: typeof runsOfSensor, key: string) => {
      const runs: string[] = [];
      for (let after: string | null | undefined; after !== null; ) {
        const page = await list(reader, key, { limit: 5, ...(after ? { after } : {}) });
        runs.push(...page.items.map(({ run }) => run));
        after = page.next;
      }
      return runs.sort();
    };
    const sensors = await reader.find(tables.Sensor, {});
    expect(sensors.some(({ key }) => naming('sensor', key).length > 5)).toBe(true);
    for (const { key } of sensors) expect(await touched(runsOfSensor, key), key).toEqual(naming('sensor', key));
    for (const { key } of await reader.find(tables.Calibration, {}))
      expect(await touched(runsOfCalibration, key), key).toEqual(naming('calibration', key));
  });

  it('leaves a ledger in which every row and every byte has its place', async () => {
    const { labId } = await labOf(database.records, folder(FOLDERS[0] ?? '').bundle);
    expect(await verifyRecords(database.records.read(labId), store)).toMatchObject({ holds: true });
  });
});

function numbersOf({ result, runs, refused }: ReturnType<typeof evaluateLot>): string {
  return canonicalJson({ result, runs: runs.map(({ reading, judgement }) => ({ reading, judgement })), refused });
}

describe('a run file that cannot be taken', () => {
  const { bundle, filesOf } = folder('dunlin-42-preproduction');
  const [first, second] = bundle.runs as [Run, Run];
  const plan = { plan: bundle.plan.plan, revision: bundle.plan.revision };
  const good = new TextDecoder().decode(filesOf(second.run)[0]?.bytes);
  const header = good.split('\n').findIndex((line) => !line.startsWith('#'));
  let database: TestDatabase;
  let by: Actor;

  beforeAll(async () => {
    database = await testDatabase();
    // The lot with its first run only; the second is what is sent here.
    await importLot(database.records, store, { ...bundle, runs: [first] }, filesOf);
    const { labId } = await labOf(database.records, bundle);
    const operator = await database.records.read(labId).named(tables.Person, second.operator);
    by = { labId, personId: operator.id };
  }, 60_000);
  afterAll(() => database.close());

  const send = (text: string, run: Run = second, under = plan) =>
    recordRun(database.records, store, by, run, [{ name: 'sent.csv', bytes: new TextEncoder().encode(text) }], {
      plan: under,
    });

  async function refusalOf(attempt: Promise<unknown>): Promise<Refusal> {
    try {
      await attempt;
    } catch (error) {
      if (error instanceof Refusal) return error;
      throw error;
    }
    throw new Error('the file was taken');
  }

  /** What may not change when a file is refused. */
  async function evidence() {
    const reader = database.records.read(by.labId);
    const count = async (table: new () => tables.Run | tables.Reading | tables.RunFile | tables.Destruction) =>
      (await reader.find(table, {})).length;
    return {
      runs: await count(tables.Run),
      readings: await count(tables.Reading),
      files: await count(tables.RunFile),
      destroyed: await count(tables.Destruction),
    };
  }

  const inLine = (index: number, change: (line: string) => string) =>
    good
      .split('\n')
      .map((line, at) => (at === index ? change(line) : line))
      .join('\n');

  it.each([
    [
      'a column without a unit',
      inLine(header, (line) => line.replace(/ \[bar\]/, '')),
      'unit.missing',
      { line: header + 1, column: 2 },
    ],
    [
      'the metadata of another specimen',
      inLine(0, (line) => line).replace(/# specimen: .*/, '# specimen: 9999'),
      'meta.unknown',
      { line: expect.any(Number) },
    ],
    [
      'a last row cut short',
      `${good.trimEnd().slice(0, good.trimEnd().lastIndexOf(','))}\n`,
      'file.truncated',
      { line: good.trimEnd().split('\n').length },
    ],
    [
      'a word in a number column',
      inLine(header + 5, (line) => line.replace(/,[^,]*/, ',high')),
      'number.syntax',
      { line: header + 6, column: 2, found: 'high' },
    ],
  ])('%s: named by file, line and column, kept unread, and nothing else changes', async (_, text, code, place) => {
    const before = await evidence();
    const refusal = await refusalOf(send(text));
    expect(refusal.problems[0]).toMatchObject({ code, file: 'sent.csv', ...place });
    expect(refusal.problems[0]?.detail).toMatch(/sent\.csv, line \d+/);
    expect(`${refusal.problems[0]?.detail} ${refusal.problems[0]?.action ?? ''}`).toMatch(/[.!]$/);
    expect(refusal.stored).toMatchObject({ stored: 'unread' });
    expect(await evidence()).toEqual(before);

    const waiting = await waitingFiles(database.records.read(by.labId));
    expect(waiting.map(({ id }) => id)).toContain(refusal.stored.unreadFileId);
    // The same bytes again are the same unread file.
    expect((await refusalOf(send(text))).stored).toEqual(refusal.stored);
    expect(await waitingFiles(database.records.read(by.labId))).toHaveLength(waiting.length);
  });

  it('a plan line that the plan has not, and a plan the lab has not, are pointed at', async () => {
    const before = await evidence();
    expect((await refusalOf(send(good, { ...second, planLine: 'Z' }))).problems[0]).toMatchObject({
      code: 'body.not-found',
      pointer: '/planLine',
    });
    expect((await refusalOf(send(good, second, { plan: 'NO-PLAN', revision: 1 }))).problems[0]).toMatchObject({
      code: 'body.not-found',
      pointer: '/plan',
    });
    expect(await evidence()).toEqual(before);
  });

  it('the bytes of a run that is kept already are refused with the name of that run, and not kept twice', async () => {
    const before = await evidence();
    const bytes = filesOf(first.run)[0]?.bytes ?? new Uint8Array();
    const refusal = await refusalOf(
      recordRun(database.records, store, by, second, [{ name: 'again.csv', bytes }], { plan }),
    );
    expect(refusal.problems[0]).toMatchObject({
      code: 'run.duplicate',
      detail: expect.stringContaining(`run ${first.run}`),
    });
    expect(refusal.stored).toEqual({});
    expect(await evidence()).toEqual(before);
  });

  it('a specimen that broke cannot be run again; the file is kept unread', async () => {
    const again = { ...second, run: '999', specimen: first.specimen };
    const refusal = await refusalOf(send(good.replace(/# specimen: .*/, `# specimen: ${first.specimen}`), again));
    expect(refusal.problems[0]).toMatchObject({
      code: 'specimen.destroyed',
      detail: expect.stringContaining(`run ${first.run}`),
    });
    expect(refusal.stored).toMatchObject({ stored: 'unread' });
  });

  it('a lot that is closed takes no run; the file is kept unread', async () => {
    const lot = await database.records.read(by.labId).named(tables.Lot, bundle.lot.lot);
    const say = (closed: boolean, reason: string) =>
      database.records.change(by, 'lot closed or opened', reason, (rows) =>
        rows.addVersion(tables.LotClosing, lot.id, { closed }),
      );
    await say(true, 'the release is decided');
    const before = await evidence();
    const refusal = await refusalOf(send(`${good}\n`));
    expect(refusal.problems[0]).toMatchObject({
      code: 'state.conflict',
      pointer: '/specimen',
      detail: expect.stringContaining(`Lot ${bundle.lot.lot} is closed`),
    });
    expect(refusal.stored).toMatchObject({ stored: 'unread' });
    expect(await evidence()).toEqual(before);
    await say(false, 'closed by mistake');
  });

  it('the good file is then taken, and its unread forerunners stay', async () => {
    const waiting = await waitingFiles(database.records.read(by.labId));
    await send(good);
    expect((await evidence()).runs).toBe(2);
    expect(await waitingFiles(database.records.read(by.labId))).toHaveLength(waiting.length);
  });
});
