import { type StateOf, stateTable } from './state-table.js';

/** A lot takes specimens and runs while it is open. */
export const LOT_STATES = stateTable({
  noun: 'lot',
  states: ['open', 'closed'],
  moves: {
    enter: { from: [], to: ['open'], who: ['draw'], routes: ['POST /api/lots'] },
    close: { from: ['open'], to: ['closed'], who: ['draw', 'decide'], routes: ['POST /api/lots/:lot/closing'] },
    'open again': { from: ['closed'], to: ['open'], who: ['draw', 'decide'], routes: ['POST /api/lots/:lot/opening'] },
  },
  allows: {
    'receive a specimen': ['open'],
    'record a run': ['open'],
  },
});

export type LotState = StateOf<typeof LOT_STATES>;
