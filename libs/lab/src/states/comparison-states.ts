import { stateTable } from './state-table.js';

/**
 * What a comparison declares is put before another person before anything is examined. What is declared anew waits for
 * approval again; where that is declined, the revision approved before goes on to hold. Conclusions that are locked stay so;
 * a later one takes their place and names them.
 */
export const COMPARISON_STATES = stateTable({
  noun: 'comparison',
  states: ['declared', 'approved', 'declined', 'concluded', 'withdrawn'],
  moves: {
    declare: { from: [], to: ['declared'], who: ['define'], routes: ['POST /api/comparisons'] },
    'declare anew': {
      from: ['approved', 'declined'],
      to: ['declared'],
      who: ['define'],
      guards: [
        'it has the next number and a reason; where results of its items were there by then, that is told with it',
      ],
      routes: ['POST /api/comparisons/:comparison/revisions'],
    },
    approve: {
      from: ['declared'],
      to: ['approved'],
      who: ['define'],
      notWho: 'declare a comparison',
      guards: ['what was shown is what is approved'],
      routes: ['POST /api/comparisons/:comparison/approval'],
    },
    decline: {
      from: ['declared'],
      to: ['declined', 'approved'],
      who: ['define'],
      guards: ['what was shown is what is declined'],
      routes: ['POST /api/comparisons/:comparison/declining'],
    },
    withdraw: {
      from: ['declared', 'approved', 'declined'],
      to: ['withdrawn'],
      who: ['define'],
      routes: ['POST /api/comparisons/:comparison/withdrawal'],
    },
    conclude: {
      from: ['approved'],
      to: ['concluded'],
      who: ['decide'],
      notWho: 'declare a comparison',
      guards: [
        'the result is of the approved revision and of the records as they are',
        'what was shown is what is signed',
      ],
      routes: ['POST /api/comparisons/:comparison/conclusions'],
    },
    'conclude anew': {
      from: ['concluded'],
      to: ['concluded'],
      who: ['decide'],
      notWho: 'declare a comparison',
      guards: ['it names the conclusion whose place it takes, and why'],
      routes: ['POST /api/comparisons/:comparison/conclusions'],
    },
  },
  allows: {
    'record an observation': ['approved'],
    'work out its result': ['approved', 'concluded'],
    'report its conclusions': ['concluded'],
  },
});
