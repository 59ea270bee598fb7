import type { Duty } from '../duties.js';
import { type StateOf, stateTable } from './state-table.js';

const HANDS: readonly Duty[] = ['draw', 'record', 'decide'];
const DISPOSABLE = [
  'no legal hold',
  'its keep-until is past, or an exception is authorised with its reason',
  'no nonconformity and no safety flag of its lot is open',
  'its lot is decided about',
];

/** A legal hold is placed by one person and lifted by another; meanwhile nothing it covers is run or disposed of. */
export const LEGAL_HOLD_STATES = stateTable({
  noun: 'legal hold',
  states: ['in force', 'lifted'],
  moves: {
    place: { from: [], to: ['in force'], who: ['review', 'decide', 'audit'], routes: ['POST /api/legal-holds'] },
    lift: {
      from: ['in force'],
      to: ['lifted'],
      who: ['decide'],
      notWho: 'place a legal hold',
      routes: ['POST /api/legal-holds/:n/lifting'],
    },
  },
  allows: { 'run or dispose of what it covers': ['lifted'] },
});

/** A disposal is asked for by one person, authorised by another, and recorded when it was carried out. */
export const DISPOSAL_STATES = stateTable({
  noun: 'disposal',
  states: ['asked for', 'authorised', 'refused', 'withdrawn', 'carried out'],
  moves: {
    'ask for': { from: [], to: ['asked for'], who: HANDS, routes: ['POST /api/disposals'] },
    authorise: {
      from: ['asked for'],
      to: ['authorised'],
      who: ['decide'],
      notWho: 'ask for a disposal',
      guards: DISPOSABLE,
      routes: ['POST /api/disposals/:n/authorisation'],
    },
    refuse: {
      from: ['asked for'],
      to: ['refused'],
      who: ['decide'],
      notWho: 'ask for a disposal',
      routes: ['POST /api/disposals/:n/refusal'],
    },
    withdraw: {
      from: ['asked for', 'authorised'],
      to: ['withdrawn'],
      who: HANDS,
      guards: ['by whoever asked for it, or by somebody who decides'],
      routes: ['POST /api/disposals/:n/withdrawal'],
    },
    'carry out': {
      from: ['authorised'],
      to: ['carried out'],
      who: HANDS,
      guards: DISPOSABLE,
      routes: ['POST /api/disposals/:n/carrying-out'],
    },
  },
  allows: { 'do away with what it names': ['authorised'] },
});

export type LegalHoldState = StateOf<typeof LEGAL_HOLD_STATES>;
