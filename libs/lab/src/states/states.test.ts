import { describe, expect, it } from 'vitest';
import { Duty } from '../duties.js';
import { Refusal } from '../problems.js';
import { type DecidedRevision, definitionState } from './definition-states.js';
import * as all from './index.js';
import { mayMove, movesFrom, requireAllowed, requireMove, type StateTable } from './state-table.js';

const tables = Object.entries(all).filter(([name]) => name.endsWith('_STATES')) as [string, StateTable<string>][];

describe.each(tables)('%s', (_name, table) => {
  const { states, moves, allows } = table;

  it('names only its own states, and duties there are', () => {
    for (const [name, { from, to, who }] of Object.entries(moves)) {
      expect(states, name).toEqual(expect.arrayContaining([...from, ...to]));
      expect(to.length, name).toBeGreaterThan(0);
      if (who !== 'itself') for (const duty of who) expect(Duty.options).toContain(duty);
    }
    for (const among of Object.values(allows)) expect(states).toEqual(expect.arrayContaining([...among]));
  });

  it('begins by one move, and reaches every state from there', () => {
    const reached = new Set(Object.values(moves).flatMap(({ from, to }) => (from.length === 0 ? to : [])));
    expect(Object.values(moves).filter(({ from }) => from.length === 0)).toHaveLength(1);
    for (let before = -1; before !== reached.size; ) {
      before = reached.size;
      for (const { from, to } of Object.values(moves))
        if (from.some((state) => reached.has(state))) for (const state of to) reached.add(state);
    }
    expect([...reached].sort()).toEqual([...states].sort());
  });

  it('permits each move from its states, and refuses it from every other with what can be done instead', () => {
    for (const [move, { from }] of Object.entries(moves))
      for (const state of states) {
        const tried = () => requireMove(table, move, state, 'thing 7');
        expect(mayMove(table, move, state)).toBe(from.includes(state));
        expect(movesFrom(table, state).includes(move)).toBe(from.includes(state));
        if (from.includes(state)) expect(tried).not.toThrow();
        else expect(tried).toThrow(new RegExp(`^Thing 7 is ${state}, so to ${move} is not for it`));
      }
  });

  it('allows what changes no state in its states only', () => {
    for (const [act, among] of Object.entries(allows))
      for (const state of states) {
        const tried = () => requireAllowed(table, act, state, { thing: 'thing 7', action: 'Wait.' });
        if (among.includes(state)) expect(tried).not.toThrow();
        else expect(tried).toThrow(Refusal);
      }
  });
});

describe('a revision of a definition', () => {
  const decided = (revision: number, decision: DecidedRevision['decision'], inForceFrom: string) => ({
    revision,
    decision,
    inForceFrom,
  });
  const first = decided(1, 'approved', '2031-01-01');

  it.each([
    ['nothing before its day', [first], '2030-12-31', ['approved']],
    ['its day', [first], '2031-01-01', ['in force']],
    [
      'a later one that is only proposed',
      [first, decided(2, 'proposed', '2031-02-01')],
      '2031-03-01',
      ['in force', 'proposed'],
    ],
    [
      'a later one that was declined',
      [first, decided(2, 'declined', '2031-02-01')],
      '2031-03-01',
      ['in force', 'declined'],
    ],
    [
      'a later one before its day',
      [first, decided(2, 'approved', '2031-02-01')],
      '2031-01-31',
      ['in force', 'approved'],
    ],
    ['a later one on its day', [first, decided(2, 'approved', '2031-02-01')], '2031-02-01', ['replaced', 'in force']],
    [
      'a third that overtakes the second',
      [first, decided(2, 'approved', '2031-06-01'), decided(3, 'approved', '2031-02-01')],
      '2031-03-01',
      ['replaced', 'replaced', 'in force'],
    ],
  ])('stands as the calendar and the decisions say: %s', (_what, revisions, day, expected) => {
    expect(revisions.map((one) => definitionState(one, revisions, day))).toEqual(expected);
  });
});
