import type { Duty } from '../duties.js';
import { stateTable } from './state-table.js';

const WORKERS: readonly Duty[] = ['record', 'review', 'decide', 'draw', 'calibrate', 'define'];
const AUTHORISED = 'whoever says it is authorised for the methods its results were made by';
const ASKERS: readonly Duty[] = ['define', 'record', 'review', 'decide', 'draw'];

/** A nonconformity stays open until another person than wrote of it has closed it. An open one blocks the disposition. */
export const NONCONFORMITY_STATES = stateTable({
  noun: 'nonconformity',
  states: ['open', 'closed'],
  moves: {
    open: {
      from: [],
      to: ['open'],
      who: [...WORKERS, 'issue', 'trace', 'compare', 'audit'],
      routes: ['POST /api/nonconformities'],
    },
    'write in': { from: ['open'], to: ['open'], who: WORKERS, routes: ['PUT /api/nonconformities/:n'] },
    close: {
      from: ['open'],
      to: ['closed'],
      who: ['review', 'decide'],
      notWho: 'write a nonconformity',
      guards: ['cause, containment, corrective action and the day it is due are said'],
      routes: ['POST /api/nonconformities/:n/closing'],
    },
    'open again': {
      from: ['closed'],
      to: ['open'],
      who: WORKERS,
      routes: ['POST /api/nonconformities/:n/reopening'],
    },
  },
  allows: { 'dispose of its lot': ['closed'] },
});

/** A concession or deviation permit is asked for by one person and granted or refused by another. */
export const CONCESSION_STATES = stateTable({
  noun: 'concession',
  states: ['requested', 'granted', 'refused', 'withdrawn'],
  moves: {
    request: { from: [], to: ['requested'], who: ASKERS, routes: ['POST /api/concessions'] },
    grant: {
      from: ['requested'],
      to: ['granted'],
      who: ['decide'],
      notWho: 'request a concession',
      guards: ['no limit from outside that the plan claims is conceded'],
      routes: ['POST /api/concessions/:n/grant'],
    },
    refuse: {
      from: ['requested'],
      to: ['refused'],
      who: ['decide'],
      notWho: 'request a concession',
      routes: ['POST /api/concessions/:n/refusal'],
    },
    withdraw: {
      from: ['requested', 'granted'],
      to: ['withdrawn'],
      who: ASKERS,
      guards: ['by whoever asked for it, or by somebody who decides'],
      routes: ['POST /api/concessions/:n/withdrawal'],
    },
  },
  allows: { 'cover what it is bounded to': ['granted'] },
});

/** A lot has one disposition; a later one replaces it. */
export const DISPOSITION_STATES = stateTable({
  noun: 'disposition',
  states: ['waits for a second decider', 'in force', 'replaced'],
  moves: {
    decide: {
      from: [],
      to: ['waits for a second decider', 'in force'],
      who: ['decide'],
      notWho: 'record',
      guards: ['nothing blocks it', 'what was shown is what is signed'],
      routes: ['POST /api/lots/:lot/dispositions'],
    },
    countersign: {
      from: ['waits for a second decider'],
      to: ['in force'],
      who: ['decide'],
      notWho: 'decide',
      guards: ['nothing blocks it', 'what was shown is what is signed'],
      routes: ['POST /api/dispositions/:n/signatures'],
    },
    'be replaced': {
      from: ['waits for a second decider', 'in force'],
      to: ['replaced'],
      who: 'itself',
      guards: ['a later disposition names it'],
    },
  },
  allows: { 'release the lot': ['in force'] },
});

/** An opinion is given by somebody authorised for what it is about, said anew by such a person, or taken back. */
export const OPINION_STATES = stateTable({
  noun: 'opinion',
  states: ['given', 'withdrawn'],
  moves: {
    give: {
      from: [],
      to: ['given'],
      who: ['review', 'decide'],
      guards: ['there are results it can rest on', AUTHORISED],
      routes: ['POST /api/opinions'],
    },
    'say anew': {
      from: ['given'],
      to: ['given'],
      who: ['review', 'decide'],
      guards: ['there are results it can rest on', AUTHORISED],
      routes: ['PUT /api/opinions/:n'],
    },
    withdraw: {
      from: ['given'],
      to: ['withdrawn'],
      who: ['review', 'decide'],
      guards: [AUTHORISED],
      routes: ['POST /api/opinions/:n/withdrawal'],
    },
  },
  allows: { 'be printed in a report': ['given'] },
});

/** Anybody raises a product-safety flag; it stays open until another person than wrote in it closes it with a decision. */
export const SAFETY_FLAG_STATES = stateTable({
  noun: 'safety flag',
  states: ['open', 'closed'],
  moves: {
    raise: {
      from: [],
      to: ['open'],
      who: [...WORKERS, 'issue', 'trace', 'compare', 'audit'],
      routes: ['POST /api/safety-flags'],
    },
    'write in': { from: ['open'], to: ['open'], who: WORKERS, routes: ['PUT /api/safety-flags/:n'] },
    close: {
      from: ['open'],
      to: ['closed'],
      who: ['decide'],
      notWho: 'write a safety flag',
      routes: ['POST /api/safety-flags/:n/closing'],
    },
  },
  allows: { 'dispose of its lot': ['closed'] },
});

/** A certificate is issued over a decision, may be held and released, and ends superseded by another or withdrawn. */
export const CERTIFICATE_STATES = stateTable({
  noun: 'certificate',
  states: ['in force', 'on hold', 'superseded', 'withdrawn'],
  moves: {
    issue: {
      from: [],
      to: ['in force'],
      who: ['issue'],
      guards: ['the disposition is in force and accepts the lot', 'the report it rests on is signed and was shown'],
      routes: ['POST /api/dispositions/:n/certificates'],
    },
    'put on hold': { from: ['in force'], to: ['on hold'], who: ['issue'], routes: ['POST /api/certificates/:n/hold'] },
    release: { from: ['on hold'], to: ['in force'], who: ['issue'], routes: ['POST /api/certificates/:n/release'] },
    withdraw: {
      from: ['in force', 'on hold'],
      to: ['withdrawn'],
      who: ['issue'],
      routes: ['POST /api/certificates/:n/withdrawal'],
    },
    supersede: { from: ['in force', 'on hold'], to: ['superseded'], who: 'itself' },
  },
  allows: {},
});
