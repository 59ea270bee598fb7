import * as lab from '@breakbook/lab';
import { type Duty, type Move, type StateTable } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { ROUTE_DUTIES } from './route-duties.fixture.js';

const tables = Object.entries(lab).filter(([name]) => name.endsWith('_STATES')) as [string, StateTable<string>][];
const moves = tables.flatMap(([name, table]) =>
  Object.entries(table.moves).map(([move, one]): [string, Move<string>] => [`${name}: ${move}`, one]),
);

describe('the tables of states and the doors of the routes', () => {
  it('are there for every thing that goes from state to state', () => {
    expect(tables.map(([name]) => name).sort()).toEqual([
      'CONCESSION_STATES',
      'DISPOSAL_STATES',
      'DISPOSITION_STATES',
      'LAYOUT_STATES',
      'LEGAL_HOLD_STATES',
      'LIMIT_STATES',
      'LOT_STATES',
      'METHOD_STATES',
      'NONCONFORMITY_STATES',
      'OPINION_STATES',
      'PLAN_STATES',
      'RUN_STATES',
      'SAFETY_FLAG_STATES',
      'SPECIMEN_STATES',
    ]);
  });

  it.each(moves.filter(([, { routes }]) => routes !== undefined))(
    '%s is asked for by routes that there are, and each of its duties opens one of them',
    (_name, { who, routes = [] }) => {
      const opened = routes.flatMap((route) => {
        const duties = ROUTE_DUTIES[route];
        expect(duties, route).toBeInstanceOf(Array);
        return duties as readonly Duty[];
      });
      if (who !== 'itself') for (const duty of who) expect(opened).toContain(duty);
    },
  );

  it.each([...new Set(moves.flatMap(([, { routes = [] }]) => routes))])(
    '%s opens to no duty that no move of it names',
    (route) => {
      const named = moves.flatMap(([, { who, routes }]) => (routes?.includes(route) && who !== 'itself' ? who : []));
      for (const duty of ROUTE_DUTIES[route] ?? []) expect(named).toContain(duty);
    },
  );
});
