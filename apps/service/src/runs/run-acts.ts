import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import type { Done } from '../sign-in/forbidden-pairs.js';
import type { RunRecord } from './run-record.js';

/** Who did what to a run and to the calibrations it rests on: all that keeps somebody from reviewing it. */
export async function doneToRun(reader: Reader, { noun, body, run }: RunRecord): Promise<Done[]> {
  const thing = `run ${run.run}`;
  // One after another: within a change they share one connection.
  const bodies = await reader.history(tables.RunVersion, noun.id);
  const measured = await reader.find(tables.Measurement, { runId: noun.id });
  const examinations = await reader.history(tables.Examination, noun.id);
  // Both who wrote a row and whom it names: one may note what another has measured.
  const named = [
    ...bodies.flatMap(({ content }) => [content.operator, ...(content.instants ?? []).map(({ person }) => person)]),
    ...measured.map(({ content }) => content.person),
    ...examinations.map(({ content }) => content.person),
  ];
  const people = await reader.find(tables.Person, { key: In([...new Set(named)]) });
  const recorders = new Set([
    ...[noun, ...bodies, ...measured, ...examinations].map(({ personId }) => personId),
    ...people.map(({ id }) => id),
  ]);
  return [
    ...[...recorders].map((personId): Done => ({ act: 'record', personId, thing })),
    ...(await calibratedFor(reader, body)),
  ];
}

async function calibratedFor(reader: Reader, body: tables.RunVersion): Promise<Done[]> {
  const channels = await reader.find(tables.RunChannel, { runVersionId: body.id });
  const used = channels.flatMap(({ calibrationVersionId }) => calibrationVersionId ?? []);
  const versions = await reader.find(tables.CalibrationVersion, { id: In(used) });
  return versions.map(({ personId, content }) => ({
    act: 'change a calibration',
    personId,
    thing: `calibration ${content.calibration}`,
  }));
}
