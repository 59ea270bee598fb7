import { type StateOf, stateTable } from './state-table.js';

const DECISION = {
  who: ['review'],
  notWho: 'record',
  routes: ['POST /api/runs/:run/validity'],
} as const;

const REASON = 'an invalid run has one of the listed reasons';
const PHOTOS = 'the photos its failure mode asks for are there, or it is said why not';

/**
 * A run is recorded by one person and its validity decided by another. What was recorded changes only until then; a
 * decision can be made anew, with a note. A run that was recorded by mistake is void and stays in every list.
 */
export const RUN_STATES = stateTable({
  noun: 'run',
  states: ['not decided', 'valid', 'valid with deviation', 'invalid', 'void'],
  moves: {
    record: {
      from: [],
      to: ['not decided'],
      who: ['record', 'send'],
      guards: ['its lot takes runs', 'its specimen can be run', 'what it is made under is in force'],
      routes: ['POST /api/runs'],
    },
    correct: {
      from: ['not decided'],
      to: ['not decided'],
      who: ['record'],
      routes: ['POST /api/runs/:run/measurements', 'POST /api/runs/:run/examination', 'POST /api/runs/:run/instants'],
    },
    decide: {
      ...DECISION,
      from: ['not decided'],
      to: ['valid', 'valid with deviation', 'invalid', 'void'],
      guards: [REASON, PHOTOS],
    },
    'decide anew': {
      ...DECISION,
      from: ['valid', 'valid with deviation', 'invalid', 'void'],
      to: ['valid', 'valid with deviation', 'invalid', 'void'],
      guards: [
        'a note says why',
        REASON,
        PHOTOS,
        'where it counted as loading its specimen not at all, no run of that was made since',
      ],
    },
  },
  allows: {
    /** Invalid runs are counted and printed, and judge nothing. */
    'enter the judgement of its lot': ['valid', 'valid with deviation'],
    /** Once for each state of its record. */
    'be reviewed': ['valid', 'valid with deviation', 'invalid'],
  },
});

export type RunState = StateOf<typeof RUN_STATES>;
