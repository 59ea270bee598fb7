import type { Duty } from '../duties.js';
import { Refusal } from '../problems.js';

/**
 * A thing of the lab goes from state to state by moves that are written down once, in a table: the service asks it
 * before it changes anything, pages show by it what can be done, and tests walk every cell of it.
 */
export interface StateTable<State extends string, Name extends string = string, Act extends string = string> {
  /** As people say it, such as "lot". */
  noun: string;
  states: readonly State[];
  moves: Readonly<Record<Name, Move<State>>>;
  /** What changes no state of the thing and yet needs one of these, such as to record a run of a lot. */
  allows: Readonly<Record<Act, readonly State[]>>;
}

export interface Move<State extends string> {
  /** Empty where the move is how the thing begins. */
  from: readonly State[];
  to: readonly State[];
  /** One of these duties is needed; "itself" where nobody does it and it follows from something else. */
  who: readonly Duty[] | 'itself';
  /** What the same person must not have done to the thing before: the other side of a forbidden pair. */
  notWho?: string;
  /** What must hold besides, in words; each is refused in its own sentence. */
  guards?: readonly string[];
  /** Routes by which it is asked for. */
  routes?: readonly string[];
}

/** Says of a table that it is one, so that its names are checked where they are used. */
export function stateTable<State extends string, Name extends string, Act extends string>(
  table: StateTable<State, Name, Act>,
): StateTable<State, Name, Act> {
  return table;
}

export type StateOf<Table> = Table extends StateTable<infer State, string, string> ? State : never;
export type MoveOf<Table> = Table extends StateTable<string, infer Name, string> ? Name : never;

/** Is the move there from this state? Undefined is before the thing began. */
export function mayMove<State extends string, Name extends string>(
  { moves }: StateTable<State, Name>,
  move: Name,
  state: State | undefined,
): boolean {
  const { from } = moves[move];
  return state === undefined ? from.length === 0 : from.includes(state);
}

/** The moves there are from a state, in the order of the table. */
export function movesFrom<State extends string, Name extends string>(
  table: StateTable<State, Name>,
  state: State | undefined,
): Name[] {
  return (Object.keys(table.moves) as Name[]).filter((move) => mayMove(table, move, state));
}

/** Refuses a move that the table does not have from this state. `thing` is told, such as "lot P-2031-04". */
export function requireMove<State extends string, Name extends string>(
  table: StateTable<State, Name>,
  move: Name,
  state: State,
  thing: string,
): void {
  if (mayMove(table, move, state)) return;
  const can = movesFrom(table, state).filter((name) => table.moves[name].who !== 'itself');
  throw new Refusal({
    code: 'state.conflict',
    found: state,
    expected: table.moves[move].from.join(', '),
    detail: `${capital(thing)} is ${state}, so to ${move} is not for it: that needs ${inWords(table.moves[move].from)}. Nothing was changed.`,
    action: can.length === 0 ? `Nothing more can be done with it.` : `From ${state} one can: ${can.join(', ')}.`,
  });
}

/** Does a thing in this state allow what changes no state of it? */
export function isAllowed<State extends string, Act extends string>(
  { allows }: StateTable<State, string, Act>,
  act: Act,
  state: State,
): boolean {
  return allows[act].includes(state);
}

/** Refuses what needs another state than the thing is in. */
export function requireAllowed<State extends string, Act extends string>(
  table: StateTable<State, string, Act>,
  act: Act,
  state: State,
  { thing, pointer, action }: { thing: string; pointer?: string; action: string },
): void {
  if (isAllowed(table, act, state)) return;
  throw new Refusal({
    code: 'state.conflict',
    ...(pointer === undefined ? {} : { pointer }),
    found: state,
    expected: table.allows[act].join(', '),
    detail: `${capital(thing)} is ${state}; to ${act} needs ${inWords(table.allows[act])}.`,
    action,
  });
}

function inWords(states: readonly string[]): string {
  if (states.length === 0) return 'something new';
  return states.length === 1 ? `${states[0]}` : `${states.slice(0, -1).join(', ')} or ${states.at(-1)}`;
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
