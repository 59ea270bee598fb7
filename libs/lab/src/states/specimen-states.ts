import { type StateOf, stateTable } from './state-table.js';

const WHOLE = ['received', 'conditioned', 'ready'] as const;
const STATES = ['POST /api/specimens/:specimen/states'];

/**
 * A specimen is destroyed once. Beside its state stand two marks: "stressed", once a run was made with it that it
 * survived, and "on legal hold", which keeps it from being run and from being disposed of.
 */
export const SPECIMEN_STATES = stateTable({
  noun: 'specimen',
  states: [...WHOLE, 'destroyed', 'retained', 'disposed'],
  moves: {
    receive: {
      from: [],
      to: ['received'],
      who: ['draw'],
      guards: ['its lot takes specimens'],
      routes: ['POST /api/specimens', 'POST /api/specimens/several'],
    },
    condition: { from: ['received', 'ready'], to: ['conditioned'], who: ['draw', 'record'], routes: STATES },
    'make ready': { from: ['received', 'conditioned'], to: ['ready'], who: ['draw', 'record'], routes: STATES },
    destroy: {
      from: WHOLE,
      to: ['destroyed'],
      who: ['record', 'send'],
      guards: ['no run destroyed it before', 'no legal hold'],
      routes: ['POST /api/runs', 'POST /api/runs/:run/examination'],
    },
    /** The state it was said to be in before. */
    'be whole after all': {
      from: ['destroyed'],
      to: WHOLE,
      who: 'itself',
      guards: ['the run that destroyed it is void'],
    },
    retain: { from: [...WHOLE, 'destroyed'], to: ['retained'], who: ['draw', 'decide'], routes: STATES },
    'take out': {
      from: ['retained'],
      to: ['received', 'destroyed'],
      who: ['draw', 'decide'],
      routes: STATES,
    },
    dispose: {
      from: [...WHOLE, 'destroyed', 'retained'],
      to: ['disposed'],
      who: ['draw', 'record', 'decide'],
      guards: [
        'no legal hold',
        'its keep-until is past, or an exception is authorised with its reason',
        'no nonconformity and no safety flag of its lot is open',
        'its lot is decided about',
        'asked for by one person and authorised by another',
      ],
      routes: ['POST /api/disposals/:n/carrying-out'],
    },
  },
  allows: {
    'make a run with it': WHOLE,
  },
});

export type SpecimenState = StateOf<typeof SPECIMEN_STATES>;
