import { type StateOf, stateTable } from './state-table.js';

/**
 * A revision of a method, layout, limit or plan. One person proposes it and another approves it; it is in force from
 * the day it names, until a later one is. What is only proposed judges nothing, and what was once in force stays what
 * its runs and verdicts were made by.
 */
function definitionStates(noun: 'method' | 'layout' | 'limit' | 'plan', guards: readonly string[]) {
  const route = `/api/${noun}s`;
  return stateTable({
    noun: `revision of a ${noun}`,
    states: ['proposed', 'declined', 'approved', 'in force', 'replaced'],
    moves: {
      propose: {
        from: [],
        to: ['proposed'],
        who: ['define'],
        routes: [`POST ${route}`, `POST ${route}/:${noun}/revisions`],
      },
      approve: {
        from: ['proposed'],
        to: ['approved', 'in force', 'replaced'],
        who: ['define'],
        notWho: 'propose',
        guards: ['what was shown is what is approved', ...guards],
        routes: ['POST /api/proposals/:n/approval'],
      },
      decline: {
        from: ['proposed'],
        to: ['declined'],
        who: ['define'],
        routes: ['POST /api/proposals/:n/declining'],
      },
      'come into force': { from: ['approved'], to: ['in force'], who: 'itself', guards: ['its day has come'] },
      'be replaced': {
        from: ['approved', 'in force'],
        to: ['replaced'],
        who: 'itself',
        guards: ['a later revision is in force'],
      },
    },
    allows: {
      /** A lot begun under a revision goes on under it. */
      'record a run by it': ['in force', 'replaced'],
      'be named by an approved plan': ['approved', 'in force', 'replaced'],
    },
  });
}

const NAMED_APPROVER = 'by the person its content names';

export const METHOD_STATES = definitionStates('method', [NAMED_APPROVER]);
export const LAYOUT_STATES = definitionStates('layout', []);
export const LIMIT_STATES = definitionStates('limit', [NAMED_APPROVER]);
export const PLAN_STATES = definitionStates('plan', [
  NAMED_APPROVER,
  'every method and limit it names is approved',
  'each limit is the one in force on the day of the plan',
]);

/** The four share their states. */
export type DefinitionState = StateOf<typeof LIMIT_STATES>;

/** What was decided about a revision, and from which day it holds. */
export interface DecidedRevision {
  revision: number;
  decision: 'proposed' | 'declined' | 'approved';
  /** YYYY-MM-DD in the zone of the lab. */
  inForceFrom: string;
}

/** In which state is this revision on a day? `all` are the revisions of its thing. */
export function definitionState(one: DecidedRevision, all: readonly DecidedRevision[], day: string): DefinitionState {
  if (one.decision !== 'approved') return one.decision;
  if (all.some((other) => other.revision > one.revision && isInForce(other, day))) return 'replaced';
  return isInForce(one, day) ? 'in force' : 'approved';
}

function isInForce({ decision, inForceFrom }: DecidedRevision, day: string): boolean {
  return decision === 'approved' && inForceFrom <= day;
}
