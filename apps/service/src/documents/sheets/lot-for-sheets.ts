import type { ClaimEntry, Reading } from '@breakbook/lab';
import { Reader, type Records, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { type StoredLot, storedLot } from '../../lots/lot-bundle.js';
import type { Workers } from '../../workers/workers.js';

/** A lot as it stood at one instant: what its sheets are made from. */
export interface LotForSheets extends StoredLot {
  at: Date;
  /** What each run was read as last, by its key. */
  readings: Map<string, Reading>;
  /** Where each run stands in the claim of its plan line. */
  entries: Map<string, ClaimEntry>;
  /** The lot test report that tells the lot, where there is one. */
  report: { number: string; revision: number } | undefined;
}

/** Reads a lot as it stands, all of it at one instant. */
export async function lotForSheets(
  { records, workers }: { records: Records; workers: Workers },
  labId: string,
  lotKey: string,
): Promise<LotForSheets> {
  const at = new Date();
  const stood = await records.read(labId).manager.transaction('REPEATABLE READ', async (manager) => {
    const reader = new Reader(manager, labId);
    const stored = await storedLot(reader, lotKey);
    return {
      ...stored,
      readings: await lastReadings(reader, stored),
      report: await reportOf(reader, stored.ids.lotId),
    };
  });
  const { bundle, readings } = stood;
  return { ...stood, at, entries: await workers.run('claim entries', { bundle, readings }) };
}

async function lastReadings(reader: Reader, { ids }: StoredLot): Promise<Map<string, Reading>> {
  const runs = [...ids.runs];
  const kept = await reader.find(tables.Reading, { runId: In(runs.map(([, { runId }]) => runId)) });
  const last = new Map(kept.map(({ runId, content }) => [runId, content]));
  return new Map(
    runs.flatMap(([run, { runId }]): [string, Reading][] => {
      const reading = last.get(runId);
      return reading ? [[run, reading]] : [];
    }),
  );
}

/** The last report that was signed, or else the last draft. */
async function reportOf(reader: Reader, lotId: string): Promise<LotForSheets['report']> {
  const [found] = await reader.manager.query<{ number: string; revision: number }[]>(
    `select document.content #>> '{identity,number}' as number,
       (document.content #>> '{identity,revision}')::integer as revision
     from document
     join evaluation on evaluation.lab_id = document.lab_id and evaluation.id = document.evaluation_id
     left join document_sealing sealing on sealing.lab_id = document.lab_id and sealing.document_id = document.id
     where document.lab_id = $1 and evaluation.lot_id = $2 and document.kind = 'lot test report'
     order by sealing.id is null, document.number desc limit 1`,
    [reader.labId, lotId],
  );
  return found;
}
