import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../../../../tests/database.js';
import { aLab, aLot, aPerson } from '../../../../tests/lab-fixture.js';
import { Destruction, Run, ValidityDecision } from '../entities/index.js';
import { destroySpecimen } from './destroy.js';
import type { Actor } from './rows.js';

describe('destroySpecimen', () => {
  let database: TestDatabase;
  let recorder: Actor;
  let reviewer: Actor;
  let specimens: string[];
  let runs = 0;
  beforeAll(async () => {
    database = await testDatabase(20);
    recorder = await aLab(database.records);
    reviewer = await aPerson(database.records, recorder, 'jorun');
    const lot = await aLot(database.records, recorder, ['0417', '0418', '0419', '0420', '0421']);
    specimens = lot.specimens.map(({ id }) => id);
  });
  afterAll(() => database.close());

  const destroy = (specimenId: string) =>
    database.records.change(recorder, 'run recorded', async (rows) => {
      runs += 1;
      const run = await rows.add(Run, { key: `run-${runs}`, specimenId });
      return destroySpecimen(rows, specimenId, run.id);
    });
  const makeVoid = (runId: string) =>
    database.records.change(reviewer, 'validity decided', 'entered for the wrong rim', (rows) =>
      rows.addVersion(ValidityDecision, runId, {
        validity: 'void',
        content: { validity: 'void', person: 'jorun', at: '2031-03-04T10:00:00Z' },
      }),
    );

  it('happens once, and the refusal names the run and what to do', async () => {
    const [specimen = ''] = specimens;
    await destroy(specimen);
    const first = await database.records.read(recorder.labId).one(Run, (await destructions(specimen))[0]?.runId ?? '');
    await expect(destroy(specimen)).rejects.toMatchObject({
      code: 'specimen.destroyed',
      message: `Specimen 0417 was destroyed in run ${first.key}.`,
    });
  });

  const destructions = (specimenId: string) => database.records.read(recorder.labId).find(Destruction, { specimenId });

  it('happens once though twelve runs of one specimen are recorded at once, and eleven leave nothing', async () => {
    const specimen = specimens[1] ?? '';
    const outcomes = await Promise.allSettled(Array.from({ length: 12 }, () => destroy(specimen)));
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    for (const outcome of outcomes) {
      if (outcome.status === 'rejected') expect(outcome.reason).toMatchObject({ code: 'specimen.destroyed' });
    }
    const reader = database.records.read(recorder.labId);
    expect(await destructions(specimen)).toHaveLength(1);
    expect(await reader.find(Run, { specimenId: specimen })).toHaveLength(1);
  });

  it('is refused by the database itself where nobody looked first', async () => {
    const specimenId = specimens[2] ?? '';
    const unlooked = () =>
      database.records.change(recorder, 'run recorded', async (rows) => {
        runs += 1;
        const run = await rows.add(Run, { key: `run-${runs}`, specimenId });
        return rows.add(Destruction, { specimenId, runId: run.id, afterVoidId: null });
      });
    const outcomes = await Promise.allSettled(Array.from({ length: 12 }, unlooked));
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    for (const outcome of outcomes) {
      if (outcome.status === 'rejected') expect(outcome.reason).toMatchObject({ code: 'specimen.destroyed' });
    }
  });

  it('happens again, once, after the run was made void', async () => {
    const specimen = specimens[3] ?? '';
    const first = await destroy(specimen);
    const decision = await makeVoid(first.runId);
    const outcomes = await Promise.allSettled(Array.from({ length: 6 }, () => destroy(specimen)));
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect((await destructions(specimen)).map(({ afterVoidId }) => afterVoidId)).toEqual([null, decision.id]);
  });

  it('cannot name a decision that made nothing void, or a run of another specimen', async () => {
    const specimenId = specimens[4] ?? '';
    const other = specimens[3] ?? '';
    const { runId } = await destroy(specimenId);
    const valid = await database.records.change(reviewer, 'validity decided', (rows) =>
      rows.addVersion(ValidityDecision, runId, {
        validity: 'valid',
        content: { validity: 'valid', person: 'jorun', at: '2031-03-04T10:00:00Z' },
      }),
    );
    for (const [specimen, afterVoidId] of [
      [specimenId, valid.id],
      [other, null],
    ] as const) {
      await expect(
        database.records.change(recorder, 'run recorded', async (rows) => {
          runs += 1;
          const run = await rows.add(Run, { key: `run-${runs}`, specimenId });
          return rows.add(Destruction, { specimenId: specimen, runId: run.id, afterVoidId });
        }),
      ).rejects.toMatchObject({ driverError: { code: 'BB005' } });
    }
  });
});
