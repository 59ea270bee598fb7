import { isZone, type LotBundle, type Problem, shown } from '@breakbook/lab';
import { earlierProblems } from './checks/earlier.js';
import { doubledKeys } from './checks/keys.js';
import { planProblems } from './checks/plan.js';
import { problemAt, recordsOf } from './checks/records.js';
import { rigProblems } from './checks/rigs.js';
import { runProblems } from './checks/runs.js';

/**
 * Do the records of this bundle fit each other? Every key named is there, plan, lot and limits belong together, things
 * happened in an order that can be, and no one reviewed what they recorded. Each problem says where (RFC 6901), what
 * was found and what to do; none means that the lot can be judged.
 */
export function checkBundle(bundle: LotBundle): Problem[] {
  const { zone } = bundle.lab;
  if (!isZone(zone))
    return [
      problemAt(
        'meta.unknown',
        '/lab/zone',
        `${shown(zone)} is no zone of the time-zone database. Write one such as Europe/Lisbon.`,
        zone,
      ),
    ];
  const records = recordsOf(bundle);
  return [
    ...doubledKeys(records),
    ...planProblems(records),
    ...rigProblems(records),
    ...runProblems(records),
    ...earlierProblems(records),
  ];
}
