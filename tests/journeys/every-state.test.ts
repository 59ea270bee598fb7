import * as lab from '@breakbook/lab';
import { Duty, type Move, type StateTable } from '@breakbook/lab';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ROUTE_DUTIES } from '../../apps/service/src/sign-in/route-duties.fixture.ts';
import { queryAs } from '../database.ts';
import { keepKeyedLot, keyedLot } from '../keyed-lot.ts';
import { watchConnections } from '../outgoing.ts';
import { keepLot } from '../sent-runs.ts';
import { type Answer, type Caller, startTestService, type TestService } from '../service.ts';
import { CERTIFICATE_STATE_ROWS, keepCertifiedLots } from '../states/certificate-rows.ts';
import { COMPARISON_STATE_ROWS } from '../states/comparison-rows.ts';
import { DECISION_ROWS, keepLotsDecidedAbout } from '../states/decision-rows.ts';
import { DEFINITION_ROWS } from '../states/definition-rows.ts';
import { KEEPING_ROWS, keepLotDisposedOf } from '../states/keeping-rows.ts';
import { MOVES_NOTHING } from '../states/moves-nothing.ts';
import type { Ask, House, StateRows } from '../states/state-rows.ts';
import { WORK_ROWS, WORKED_LOT } from '../states/work-rows.ts';

const ROWS: readonly StateRows[] = [
  ...DEFINITION_ROWS,
  ...WORK_ROWS,
  ...DECISION_ROWS,
  ...KEEPING_ROWS,
  ...CERTIFICATE_STATE_ROWS,
  ...COMPARISON_STATE_ROWS,
];
const TABLES = Object.entries(lab).flatMap(([name, one]) =>
  name.endsWith('_STATES') ? [one as StateTable<string>] : [],
);
const PEOPLE = Duty.exclude(['send']).options;

let service: TestService;
let house: House;
let cells = 0;
/** Service and callers are one process here, so that whatever the service opens is seen. */
let connections: ReturnType<typeof watchConnections>;

beforeAll(async () => {
  connections = watchConnections();
  service = await startTestService();
  await keepLot(service.records, 1);
  const worked = keyedLot([], { lot: WORKED_LOT, planned: 500 });
  await keepKeyedLot(service, { ...worked, lot: { ...worked.lot, size: 1000 } });
  const having = new Map<Duty, Caller>();
  for (const duty of PEOPLE) having.set(duty, await service.signIn(`with-${duty}`, [duty]));
  const office = await service.signIn('y-hamasaki');
  const rig = await office.ask('POST', '/api/rigs/R1/tokens', { body: { note: 'walk', days: 1 } });
  having.set('send', service.withToken(rig.body.token));
  let names = 0;
  house = {
    service,
    maker: await service.signIn(
      'maker',
      PEOPLE.filter((duty) => duty !== 'administer'),
    ),
    second: await service.signIn('second', ['decide']),
    having: (duty) => having.get(duty) as Caller,
    fresh: (prefix) => `${prefix}-${++names}`,
  };
  await keepLotsDecidedAbout(house);
  await keepLotDisposedOf(house);
  await keepCertifiedLots(house);
}, 180_000);
afterAll(async () => {
  connections.stop();
  await service.close();
});

// Passphrase and second factor were given just now, however long the walk takes.
beforeEach(() => queryAs(service.database.owner, 'update session set confirmed_at = now(), second_at = now()'));

function movesOf({ table }: StateRows, names: readonly string[]): Move<string>[] {
  return names.map((name) => table.moves[name] as Move<string>);
}

/** Duties by which the request is made, and those by which it is not. */
function dutiesFor(rows: StateRows, one: Ask): { by: readonly Duty[]; never: readonly Duty[] } {
  const whole = new Set(movesOf(rows, one.moves).flatMap(({ who }) => (who === 'itself' ? [] : [...who])));
  const opened = ROUTE_DUTIES[one.route] as readonly Duty[];
  const may = one.moves.length > 0 ? [...whole] : [...(one.by ?? [])];
  return {
    by: (one.by ?? [...whole]).filter((duty) => opened.includes(duty)),
    never: Duty.options
      .filter((duty) => !may.includes(duty))
      .filter((duty) => one.moves.length > 0 || !opened.includes(duty)),
  };
}

const told = ({ status, body }: Answer) => `${status} ${JSON.stringify(body)}`;

async function refusedToOthers(rows: StateRows, one: Ask, thing: string, never: readonly Duty[]): Promise<void> {
  const answers = await Promise.all(
    never.map(async (duty) => [duty, await one.ask(house, house.having(duty), thing)] as const),
  );
  for (const [duty, answer] of answers) {
    cells += 1;
    expect(answer, `${duty}: ${told(answer)}`).toMatchObject({ status: 403, body: { code: 'auth.forbidden' } });
  }
  if (!movesOf(rows, one.moves).some(({ notWho }) => notWho !== undefined)) return;
  cells += 1;
  const answer = await one.ask(house, one.other?.(house) ?? house.maker, thing);
  expect(answer, `the other side: ${told(answer)}`).toMatchObject({ status: 403, body: { code: 'duty.conflict' } });
}

const REFUSED = ['state.conflict', 'specimen.destroyed'];

describe.each(ROWS.map((rows) => [rows.table.noun, rows] as const))('%s', (_noun, rows) => {
  const { table, into, never = {}, begins, asks, allowed = [] } = rows;

  /** Things that were asked in vain, and so stand as they stood. */
  const standing = new Map<(house: House) => Promise<string>, string>();
  const stood = async (bring: (house: House) => Promise<string>) => {
    const thing = standing.get(bring) ?? (await bring(house));
    standing.delete(bring);
    return thing;
  };

  it('has a row for every state it comes into, and for every route of every move', () => {
    const come = new Set(
      Object.values(table.moves).flatMap(({ from, to, routes, who }) =>
        routes || (who === 'itself' && from.length > 0) ? to : [],
      ),
    );
    expect([...Object.keys(into), ...Object.keys(never)].sort()).toEqual([...come].sort());
    for (const [move, { routes = [] }] of Object.entries(table.moves))
      for (const route of routes)
        expect(
          [...begins, ...asks].some((one) => one.route === route && one.moves.includes(move)),
          `${move} by ${route}`,
        ).toBe(true);
  });

  it.each(begins.map((one) => [one.moves.join(), one.route, one] as const))(
    '%s by %s begins it',
    async (_move, _route, one) => {
      const { by, never: others } = dutiesFor(rows, one);
      const begun = () => one.before?.(house) ?? Promise.resolve(house.fresh('B'));
      if (others.length > 0) await refusedToOthers(rows, one, await begun(), others);
      for (const duty of by) {
        const thing = await begun();
        const answer = await one.ask(house, house.having(duty), thing);
        cells += 1;
        expect(answer.status, `${duty}: ${told(answer)}`).toBe(201);
        expect(movesOf(rows, one.moves)[0]?.to).toContain(await rows.stateOf(house, one.named(answer, thing)));
      }
    },
  );

  it.each(asks.map((one) => [one.moves.join(' or '), one.route, one] as const))(
    '%s by %s: in each of its states, by each duty, and by who did the other side',
    async (_move, _route, one) => {
      const { by, never: others } = dutiesFor(rows, one);
      expect(by.length).toBeGreaterThan(0);
      for (const [state, bring] of Object.entries(one.into ?? into)) {
        const thing = await stood(bring);
        expect(await rows.stateOf(house, thing)).toBe(state);
        const to = movesOf(rows, one.moves).flatMap((move) => (move.from.includes(state) ? move.to : []));
        if (to.length > 0) await refusedToOthers(rows, one, thing, others);
        for (const [index, duty] of by.entries()) {
          const own = index === 0 || to.length === 0 ? thing : await bring(house);
          const answer = await one.ask(house, house.having(duty), own);
          const now = await rows.stateOf(house, own);
          const cell = `${duty}, ${state}: ${told(answer)}`;
          cells += 1;
          if (to.length > 0) {
            expect(answer.status, cell).toBeLessThan(300);
            expect(to, cell).toContain(now);
          } else {
            expect(now, cell).toBe(state);
            standing.set(bring, own);
            if (one.movesNothing?.[state] === undefined) {
              expect(answer.status, cell).toBe(409);
              expect(REFUSED, cell).toContain(answer.body.code);
            } else expect(answer.status, cell).toBeLessThan(300);
          }
        }
      }
    },
  );

  if (allowed.length > 0)
    it.each(allowed.map((one) => [one.act, one.route, one] as const))(
      '%s by %s: in the states that allow it',
      async (act, _route, one) => {
        for (const [state, bring] of Object.entries(one.into ?? into))
          for (const duty of one.by ?? []) {
            const thing = await bring(house);
            const answer = await one.ask(house, house.having(duty), thing);
            const may = table.allows[act]?.includes(state);
            cells += 1;
            if (may) expect(answer.status, `${state}: ${told(answer)}`).toBeLessThan(300);
            else
              expect(answer, `${state}: ${told(answer)}`).toMatchObject({
                status: 409,
                body: { code: 'state.conflict' },
              });
          }
      },
    );
});

describe('the routes of the running service that change something', () => {
  const changing = () =>
    service.routes.flatMap(({ method, url }) => (['GET', 'HEAD'].includes(method) ? [] : [`${method} ${url}`]));
  const inTables = TABLES.flatMap(({ moves }) => Object.values(moves).flatMap(({ routes = [] }) => routes));
  const asked = ROWS.flatMap(({ begins, asks, allowed = [] }) => [...begins, ...asks, ...allowed]);

  it('are walked in every state, or it is said why no state is asked', () => {
    expect(TABLES.map(({ noun }) => noun).sort()).toEqual(ROWS.map(({ table }) => table.noun).sort());
    const walked = new Set(asked.map(({ route }) => route));
    expect([...walked, ...Object.keys(MOVES_NOTHING)].sort()).toEqual(changing().sort());
    for (const route of inTables) expect([...walked], route).toContain(route);
  });

  it('open to no duty that no move names, and to each that one does', () => {
    for (const route of new Set(inTables)) {
      const named = TABLES.flatMap(({ moves }) =>
        Object.values(moves).flatMap(({ who, routes }) => (routes?.includes(route) && who !== 'itself' ? who : [])),
      );
      for (const duty of ROUTE_DUTIES[route] ?? []) expect(named, route).toContain(duty);
    }
    for (const [noun, { moves }] of TABLES.map((table) => [table.noun, table] as const))
      for (const [move, { who, routes }] of Object.entries(moves)) {
        if (who === 'itself' || routes === undefined) continue;
        const opened = routes.flatMap((route) => ROUTE_DUTIES[route] as readonly Duty[]);
        for (const duty of who) expect(opened, `${noun}: ${move}`).toContain(duty);
      }
  });

  it('had the service open no connection to another machine', () => {
    expect(connections.opened()).toBeGreaterThan(10);
    expect(connections.outgoing).toEqual([]);
  });

  it('were tried in eight hundred cells and more', () => {
    expect(cells).toBeGreaterThan(800);
  });
});
