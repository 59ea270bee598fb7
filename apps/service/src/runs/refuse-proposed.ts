import { requireAllowed } from '@breakbook/lab';
import type { Reader, Version } from '@breakbook/records';
import { DEFINITIONS, type DefinitionWord } from '../proposals/definitions.js';
import { standings } from '../records/standing.js';
import type { RunContext } from './run-context.js';

/** No run is made under a plan, or by a method or layout, that is only proposed or was declined. */
export async function refuseProposed(reader: Reader, context: RunContext): Promise<void> {
  await refuse(reader, 'plan', context.planRevision, '/plan/revision');
  await refuse(reader, 'method', context.methodRevision, '/methodRevision');
  if (context.layoutRevision) await refuse(reader, 'layout', context.layoutRevision, '/layoutRevision');
}

async function refuse(
  reader: Reader,
  word: DefinitionWord,
  revision: Version & { content: { revision: number } & object },
  pointer: string,
): Promise<void> {
  const kind = DEFINITIONS[word];
  const stands = (await standings(reader, kind, [revision.recordId])).get(revision.id);
  // Whether its day has come is told of the day of the run, beside everything else that is wrong with that day.
  if (!stands || stands.state === 'approved') return;
  const named = revision.content as Record<string, unknown>;
  requireAllowed(kind.states, 'record a run by it', stands.state, {
    thing: `${word} ${String(named[word])} rev. ${revision.content.revision}`,
    pointer,
    action:
      stands.state === 'proposed'
        ? `Have proposal ${stands.proposal} approved, and send the run again; its bytes are kept unread until then.`
        : 'Name a revision that is in force.',
  });
}
