import { DISPOSAL_STATES, type Duty, LEGAL_HOLD_STATES, SAFETY_FLAG_STATES, SPECIMEN_STATES } from '@breakbook/lab';
import type { Answer, Caller } from '../service.ts';
import { asked, decide, followed, lotToDecide, named, SOUND } from './decision-rows.ts';
import { type Ask, type House, type Into, type StateRows, taken } from './state-rows.ts';
import { SPECIMEN_ROWS, said } from './work-rows.ts';

/** A lot that is decided about, and whose remnants nobody needs any more. */
const KEPT = 'KEPT';
const DESTROYED = 5;
let broken = 0;
let whole = DESTROYED;
const oneWhole = async () => `${KEPT}-${++whole}`;
const oneBroken = async () => `${KEPT}-${++broken}`;

export async function keepLotDisposedOf(house: House): Promise<void> {
  await lotToDecide(
    house,
    Array.from({ length: DESTROYED }, () => 1900),
    KEPT,
    80,
  );
  await taken(decide(house.second, house, KEPT));
  const address = `/api/lots/${KEPT}/keeping`;
  const { version } = (await house.maker.ask('GET', address)).body;
  const body = { recordsUntil: '2040-01-01', remnantsUntil: '2020-01-01', note: 'as counsel said' };
  await taken(house.second.ask('PUT', address, { body, headers: followed(version) }));
}

const askFor = (by: Caller, specimen: string) =>
  by.ask('POST', '/api/disposals', {
    body: { specimens: [specimen], reason: 'the rack is full', how: 'cut in four, to the metal merchant' },
  });

const WAYS: Record<string, object> = {
  authorisation: { reason: 'nobody asks for it any more' },
  refusal: { reason: 'still wanted' },
  withdrawal: { reason: 'asked too early' },
  'carrying-out': { how: 'cut in four', place: 'yard 2', at: '2026-11-20T10:00:00Z', by: 'Dario Zunic' },
};
const way = (one: string) => (house: House, by: Caller, n: string) =>
  asked(by, house, `/api/disposals/${n}`, one, WAYS[one] ?? {});

const askedBy =
  (by: (house: House) => Caller, specimen = oneWhole) =>
  async (house: House) =>
    `${(await taken(askFor(by(house), await specimen()))).number}`;
const after =
  (begun: (house: House) => Promise<string>, ...ways: string[]) =>
  async (house: House) => {
    const n = await begun(house);
    for (const one of ways) await taken(way(one)(house, house.second, n));
    return n;
  };

const disposalsOf = (by: (house: House) => Caller): Into => ({
  'asked for': askedBy(by),
  authorised: after(askedBy(by), 'authorisation'),
  refused: after(askedBy(by), 'refusal'),
  withdrawn: after(askedBy(by), 'withdrawal'),
  'carried out': after(askedBy(by), 'authorisation', 'carrying-out'),
});

const { who: hands } = DISPOSAL_STATES.moves.withdraw;
const HANDS: readonly Duty[] = hands === 'itself' ? [] : hands;

const DISPOSAL_ROWS: StateRows = {
  table: DISPOSAL_STATES,
  into: disposalsOf(({ maker }) => maker),
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/disposals/${n}`)).body.state,
  begins: [
    {
      route: 'POST /api/disposals',
      moves: ['ask for'],
      before: oneWhole,
      ask: (_house, by, specimen) => askFor(by, specimen),
      named,
    },
  ],
  asks: [
    { route: 'POST /api/disposals/:n/authorisation', moves: ['authorise'], ask: way('authorisation') },
    { route: 'POST /api/disposals/:n/refusal', moves: ['refuse'], ask: way('refusal') },
    { route: 'POST /api/disposals/:n/carrying-out', moves: ['carry out'], ask: way('carrying-out') },
    ...HANDS.map(
      (duty): Ask => ({
        route: 'POST /api/disposals/:n/withdrawal',
        moves: ['withdraw'],
        by: [duty],
        into: disposalsOf(({ having }) => having(duty)),
        ask: way('withdrawal'),
      }),
    ),
  ],
};

const place = (by: Caller, specimen: string) =>
  by.ask('POST', '/api/legal-holds', {
    body: { reference: 'file 31/204', reason: 'a rider asks', lots: [], specimens: [specimen] },
  });
const lift = (_house: House, by: Caller, n: string) =>
  by.ask('POST', `/api/legal-holds/${n}/lifting`, { body: { reason: 'released by letter of counsel' } });
const placed = async ({ maker }: House) => `${(await taken(place(maker, await oneWhole()))).number}`;

const LEGAL_HOLD_ROWS: StateRows = {
  table: LEGAL_HOLD_STATES,
  into: {
    'in force': placed,
    lifted: async (house) => {
      const n = await placed(house);
      await taken(lift(house, house.second, n));
      return n;
    },
  },
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/legal-holds/${n}`)).body.state,
  begins: [
    {
      route: 'POST /api/legal-holds',
      moves: ['place'],
      before: oneWhole,
      ask: (_house, by, specimen) => place(by, specimen),
      named,
    },
  ],
  asks: [{ route: 'POST /api/legal-holds/:n/lifting', moves: ['lift'], ask: lift }],
};

const FLAG = {
  title: 'Cracks at the valve hole',
  reason: 'A rim that cracks there may lose its tyre at speed.',
  seen: 'Three of eight rims cracked.',
  doneAtOnce: 'Shipment stopped.',
  lots: [SOUND],
  runs: [],
  nonconformities: [],
  serials: [],
};
const raise = (by: Caller) => by.ask('POST', '/api/safety-flags', { body: FLAG });
const raised = async ({ maker }: House) => `${(await taken(raise(maker))).number}`;
const closeFlag = (house: House, by: Caller, n: string) =>
  asked(by, house, `/api/safety-flags/${n}`, 'closing', { decision: 'Counsel was told.' });

const SAFETY_FLAG_ROWS: StateRows = {
  table: SAFETY_FLAG_STATES,
  into: {
    open: raised,
    closed: async (house) => {
      const n = await raised(house);
      await taken(closeFlag(house, house.second, n));
      return n;
    },
  },
  stateOf: async ({ maker }, n) => (await maker.ask('GET', `/api/safety-flags/${n}`)).body.state,
  begins: [{ route: 'POST /api/safety-flags', moves: ['raise'], ask: (_house, by) => raise(by), named }],
  asks: [
    {
      route: 'PUT /api/safety-flags/:n',
      moves: ['write in'],
      async ask({ maker }, by, n) {
        const { version } = (await maker.ask('GET', `/api/safety-flags/${n}`)).body;
        const body = { reason: 'a second look', content: FLAG };
        return by.ask('PUT', `/api/safety-flags/${n}`, { body, headers: followed(version) });
      },
    },
    { route: 'POST /api/safety-flags/:n/closing', moves: ['close'], ask: closeFlag },
  ],
};

/** A specimen in a state, with a disposal of it that is authorised. */
const toDispose = (specimen: () => Promise<string>, move?: string) => async (house: House) => {
  const key = await specimen();
  if (move !== undefined) await taken(said(house, house.maker, key, move));
  return `${key} ${await after(
    askedBy(
      ({ maker }) => maker,
      async () => key,
    ),
    'authorisation',
  )(house)}`;
};
const disposed = async (house: House) => {
  const thing = await toDispose(oneWhole)(house);
  await taken(way('carrying-out')(house, house.second, thing.split(' ')[1] ?? ''));
  return thing;
};

/** Specimens as they are walked, and how they end. */
const SPECIMENS_TO_THE_END: StateRows = {
  ...SPECIMEN_ROWS,
  table: SPECIMEN_STATES,
  into: { ...SPECIMEN_ROWS.into, disposed: async (house) => (await disposed(house)).split(' ')[0] ?? '' },
  asks: [
    ...SPECIMEN_ROWS.asks,
    {
      route: 'POST /api/disposals/:n/carrying-out',
      moves: ['dispose'],
      into: {
        received: toDispose(oneWhole),
        conditioned: toDispose(oneWhole, 'condition'),
        ready: toDispose(oneWhole, 'make ready'),
        retained: toDispose(oneWhole, 'retain'),
        destroyed: toDispose(oneBroken),
        disposed,
      },
      ask: (house, by, thing): Promise<Answer> => way('carrying-out')(house, by, thing.split(' ')[1] ?? ''),
    },
  ],
};

export const KEEPING_ROWS: readonly StateRows[] = [
  SPECIMENS_TO_THE_END,
  DISPOSAL_ROWS,
  LEGAL_HOLD_ROWS,
  SAFETY_FLAG_ROWS,
];
