import { PostgresRawStore, type Records, verifyRecords } from '@breakbook/records';
import type pg from 'pg';
import { queryAs } from '../database.ts';
import type { Decided } from './decisions.ts';
import type { Sent } from './uploads.ts';

/** What must hold after every kill; each member lists what does not. */
export interface Broken {
  /** Runs and decisions that were acknowledged and are not there, or have another number. */
  lost: string[];
  /** Acknowledged runs whose kept bytes are not those sent. */
  altered: string[];
  /** Runs that are there without one of their parts. */
  half: string[];
  /** Runs and decisions kept twice, or under no or several ledger entries; jobs with more than one effect, or none. */
  doubled: string[];
  /** What the verification of all records found, where they were verified. */
  ledger: string[];
}

export async function invariants(
  { owner, records, labId }: { owner: pg.ClientConfig; records: Records; labId: string },
  { sent, decided }: { sent: readonly Sent[]; decided: readonly Decided[] },
  verify: boolean,
): Promise<Broken> {
  const kept = await queryAs<{ run: string; number: number; sha256: string | null }>(
    owner,
    `select run.key as run, run.number, raw.sha256 from run
     left join run_file file on file.lab_id = run.lab_id and file.run_id = run.id
     left join raw_bytes raw on raw.lab_id = file.lab_id and raw.id = file.raw_id`,
  );
  const byKey = new Map(kept.map((one) => [one.run, one]));
  const acknowledged = sent.filter((one) => one.acknowledged);
  const decisions = await queryAs<{ note: string }>(
    owner,
    `select decision.content ->> 'note' as note from validity_decision decision
     join run on run.lab_id = decision.lab_id and run.id = decision.record_id where run.key like 'run-X%'`,
  );
  const notes = decisions.map(({ note }) => note);
  const [keptNotes, decidedNotes] = [new Set(notes), new Set(decided.map(({ note }) => note))];
  const verified = verify ? await verifyRecords(records.read(labId), new PostgresRawStore()) : undefined;
  return {
    lost: [
      ...acknowledged
        .filter(({ run, acknowledged: answer }) => byKey.get(run)?.number !== answer?.number)
        .map(({ run }) => run),
      ...decided.filter((one) => one.acknowledged && !keptNotes.has(one.note)).map(({ note }) => note),
    ],
    altered: acknowledged.filter(({ run, sha256 }) => byKey.get(run)?.sha256 !== sha256).map(({ run }) => run),
    half: await halfRuns(owner),
    doubled: [
      ...repeated(kept.map(({ run }) => run)),
      ...repeated(notes),
      ...notes.filter((note) => !decidedNotes.has(note)),
      ...(await entriesThatDoNotFit(owner)),
    ],
    ledger: verified === undefined || verified.holds ? [] : [verified.because],
  };
}

/** Uploaded runs without version, reading, file, passage, destruction, or all the bytes of their file. */
async function halfRuns(owner: pg.ClientConfig): Promise<string[]> {
  const parts = [
    'run_version v on v.record_id',
    'reading v on v.run_id',
    'run_file v on v.run_id',
    'passage v on v.run_id',
    'destruction v on v.run_id',
  ];
  const missing = await Promise.all(
    parts.map((part) =>
      queryAs<{ key: string }>(
        owner,
        `select run.key from run left join ${part} = run.id and v.lab_id = run.lab_id where v.id is null and run.key like 'run-X%'`,
      ),
    ),
  );
  const chunks = await queryAs<{ key: string }>(
    owner,
    `select raw.id::text as key from raw_bytes raw where cardinality(raw.chunk_sha256) <>
     (select count(*) from raw_chunk chunk where chunk.lab_id = raw.lab_id and chunk.raw_id = raw.id)`,
  );
  return [...missing.flat(), ...chunks].map(({ key }) => key);
}

/**
 * Each run has one entry that records it, each answer its run, each decision its entry; each job that is done has one
 * effect, and one entry for it. The entries are taken apart once: to look for each row in each grows as their square.
 */
async function entriesThatDoNotFit(owner: pg.ClientConfig): Promise<string[]> {
  const found = await queryAs<{ key: string }>(
    owner,
    `with named as materialized (
       select entry.lab_id, entry.action, row ->> 'id' as id, count(*)::int as entries
       from ledger_entry entry, jsonb_array_elements(split_part(entry.text, E'\\n', 2)::jsonb -> 'rows') row
       group by 1, 2, 3)
     select run.key from run
     left join named on named.lab_id = run.lab_id and named.id = run.id::text and named.action = 'run recorded'
     where named.entries is distinct from 1
     union all
     select answer ->> 'run' from answered_upload
     where not exists (select from run where run.key = answer ->> 'run')
     union all
     select decision.id::text from validity_decision decision
     left join named on named.lab_id = decision.lab_id and named.id = decision.id::text
       and named.action = 'validity decided'
     where named.entries is distinct from 1
     union all
     select job.id::text from job
     join job_end e on e.lab_id = job.lab_id and e.id = job.id
     left join named on named.lab_id = e.lab_id and named.id = coalesce(e.document_id, e.evaluation_id)::text
       and named.action = case when e.document_id is null then 'lot evaluated' else 'report composed' end
     where e.outcome <> 'done' or named.entries is distinct from 1`,
  );
  return found.map(({ key }) => key);
}

function repeated(keys: string[]): string[] {
  const seen = new Set<string>();
  return keys.filter((key) => seen.has(key) || !seen.add(key));
}
