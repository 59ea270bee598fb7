import { nearDuplicate, type Problem, type Reading, withFlags } from '@breakbook/lab';
import type { Reader } from '@breakbook/records';

/**
 * A reading with a flag for each of its files whose numbers another run of the lab holds in other bytes. Looked up when
 * it is told, since the other run may come later: both are then told of each other.
 */
export async function flaggedDuplicates(reader: Reader, runId: string, reading: Reading): Promise<Reading> {
  const found: Problem[] = [];
  for (const { name, sha256, numbers } of reading.files) {
    if (numbers === undefined) continue;
    const others = await reader.manager.query<{ run: string; file: string }[]>(
      `select distinct run.key as run, file ->> 'name' as file
       from reading
       join run on run.lab_id = reading.lab_id and run.id = reading.run_id
       cross join lateral jsonb_array_elements(reading.content -> 'files') file
       where reading.lab_id = $1 and reading.run_id <> $2
         and reading.content -> 'files' @> jsonb_build_array(jsonb_build_object('numbers', $3::text))
         and file ->> 'numbers' = $3 and file ->> 'sha256' <> $4
       order by run, file`,
      [reader.labId, runId, numbers, sha256],
    );
    found.push(...others.map((other) => nearDuplicate(name, other)));
  }
  return withFlags(reading, found);
}
