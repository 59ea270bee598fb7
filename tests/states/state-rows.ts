import type { Duty, StateTable } from '@breakbook/lab';
import type { Answer, Caller, SignedInCaller, TestService } from '../service.ts';

/** The lab in which every state of every thing is walked. */
export interface House {
  service: TestService;
  /** Has every duty but those of the office, and does whatever comes before a cell: the other side of every pair. */
  maker: SignedInCaller;
  /** Decides where two must. */
  second: SignedInCaller;
  /** Whoever has this one duty, and has done nothing else. */
  having(duty: Duty): Caller;
  /** A name that nothing has yet. */
  fresh(prefix: string): string;
}

/** What brings a thing from state to state, or is asked of it in some of its states, over HTTP. */
export interface Ask {
  route: string;
  /** Moves of the table that the request comes to, by the state it is made in. */
  moves: readonly string[];
  /** `thing` as `into` named it; for a move by which a thing begins, what `before` named, or a fresh name. */
  ask(house: House, by: Caller, thing: string): Promise<Answer>;
  /** How a thing is brought into a state where this request needs another thing than the others do. */
  into?: Into;
  /** States in which the request is answered though it moves nothing, with why. */
  movesNothing?: Readonly<Record<string, string>>;
  /** Whoever did the other side of the forbidden pair; the maker where nothing else is said. */
  other?(house: House): Caller;
  /** Duties of the move by which the request is made; all of them where nothing else is said. */
  by?: readonly Duty[];
}

export type Into = Readonly<Record<string, (house: House) => Promise<string>>>;

export interface Begin extends Ask {
  /** What must be there before the thing can begin. */
  before?(house: House): Promise<string>;
  /** What the thing is called once it has begun. */
  named(answer: Answer, thing: string): string;
}

/** How every state of a table is reached and every move of it asked for. */
export interface StateRows {
  table: StateTable<string>;
  into: Into;
  /** States that this thing never has, with why. */
  never?: Readonly<Record<string, string>>;
  stateOf(house: House, thing: string): Promise<string>;
  /** Moves by which a thing begins. */
  begins: readonly Begin[];
  asks: readonly Ask[];
  /** What changes no state and yet needs one: the act of the table, and how it is asked for. */
  allowed?: readonly (Ask & { act: string })[];
}

/** Asks, and throws where it was not taken: what comes before a cell must hold. */
export async function taken(asked: Promise<Answer>): Promise<Answer['body']> {
  const { status, body } = await asked;
  if (status >= 300) throw new Error(`${status} ${JSON.stringify(body)}`);
  return body;
}

/** The version of a thing as it is now, for If-Match. */
export async function versionOf({ maker }: House, address: string): Promise<{ 'if-match': string }> {
  const { headers } = await maker.ask('GET', address);
  return { 'if-match': headers.get('etag') ?? '' };
}
