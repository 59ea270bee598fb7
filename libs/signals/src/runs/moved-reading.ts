import {
  type Characteristic,
  type CharacteristicValue,
  type Check,
  isNotEvaluated,
  MOVED_QUESTION,
  type MovedInstant,
  type NotEvaluated,
  type Reading,
  Refusal,
  type Run,
  type Step,
  type TraceEvent,
} from '@breakbook/lab';
import { printSignificant, unitSymbol } from '@breakbook/units';

/** A moment that a person stated, beside the one that was proposed. */
interface Move {
  moved: MovedInstant;
  /** Undefined where the record alone shows no such moment. */
  proposed: TraceEvent | undefined;
  now: TraceEvent;
}

/**
 * A reading with moments that a person stated, told beside the reading of the same record without them: each such moment
 * is marked among the events, has a check of its own, and stands with both numbers in the steps of every characteristic
 * that it changed.
 */
export function movedReading(run: Run, proposed: Reading, reading: Reading): Reading {
  const moves = (run.instants ?? []).map((moved): Move => {
    const now = eventOf(reading, moved);
    if (!now) throw notHeld(run, moved);
    return { moved, proposed: eventOf(proposed, moved), now };
  });
  const checks = moves.map(checkOf);
  const proposedValidity =
    reading.proposedValidity === 'valid' && checks.some(({ outcome }) => outcome === 'flag')
      ? 'needs a look'
      : reading.proposedValidity;
  return {
    ...reading,
    checks: [...reading.checks, ...checks],
    characteristics: withMoves(reading.characteristics, proposed.characteristics, moves),
    ...(reading.passages
      ? {
          passages: reading.passages.map((one) => ({
            ...one,
            characteristics: withMoves(
              one.characteristics,
              proposed.passages?.find(({ passage }) => passage === one.passage)?.characteristics ?? [],
              moves.filter(({ moved }) => moved.passage === undefined || moved.passage === one.passage),
            ),
          })),
        }
      : {}),
    events: reading.events.map((event) => {
      const move = moves.find(({ now }) => now === event);
      if (!move) return event;
      const { moved, proposed: before } = move;
      return { ...event, moved: { by: moved.person, ...(before ? { proposed: before.time } : {}) } };
    }),
    proposedValidity,
  };
}

function eventOf({ events }: Reading, { instant, passage }: MovedInstant): TraceEvent | undefined {
  return events.find(
    ({ name, passage: of }) => name === instant && (passage === undefined || of === undefined || of === passage),
  );
}

/** The record has nothing that such a moment could be of: no pressure was recorded, the brake was never on. */
function notHeld({ run, instants }: Run, moved: MovedInstant): Refusal {
  return new Refusal({
    code: 'body.range',
    pointer: `/instants/${instants?.indexOf(moved)}/instant`,
    detail: `Run ${run}: the record shows no loading in which "${moved.instant}" could lie${moved.passage === undefined ? '' : `, in passage ${moved.passage}`}.`,
    found: moved.instant,
    action: 'Look whether this is the record of the run. Of a contact that was not found, give both beginning and end.',
  });
}

/** Said of a place where it was proposed already, and as it was proposed. */
function confirms({ moved, proposed, now }: Move): boolean {
  return proposed?.time === now.time && (proposed.loss ?? 'burst') === (moved.loss ?? 'burst');
}

function told({ moved, proposed, now }: Move): string {
  const as = (loss: TraceEvent['loss']) => (moved.loss || loss ? ` (${loss ?? 'burst'})` : '');
  const by = `by ${moved.person}, because "${moved.reason}"`;
  if (confirms({ moved, proposed, now })) return `${at(now.time)}${as(now.loss)} was proposed, and confirmed ${by}`;
  return proposed
    ? `proposed ${at(proposed.time)}${as(proposed.loss)}; moved to ${at(now.time)}${as(now.loss)} ${by}`
    : `none was proposed; put at ${at(now.time)}${as(now.loss)} ${by}`;
}

function checkOf(move: Move): Check {
  const { moved, proposed, now } = move;
  const sentence = `${moved.instant}: ${told(move)}.`;
  const confirmed = confirms(move);
  return {
    check: `moved ${moved.instant}`,
    question: 'Does every moment stand where the record alone puts it?',
    outcome: confirmed ? 'pass' : 'flag',
    finding: `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}`,
    ...(confirmed ? {} : { action: 'Look at the trace at both moments before deciding on validity.' }),
    place: {
      channel: now.channel,
      from: Math.min(now.time, proposed?.time ?? now.time),
      to: Math.max(now.time, proposed?.time ?? now.time),
    },
    ...(now.passage === undefined ? {} : { passage: now.passage }),
  };
}

function withMoves(now: Characteristic[], before: Characteristic[], moves: readonly Move[]): Characteristic[] {
  return now.map((one) => {
    const same = before.find(({ characteristic }) => characteristic === one.characteristic);
    if (!same || JSON.stringify([same.value, same.ifBroken]) === JSON.stringify([one.value, one.ifBroken])) return one;
    const [was, is] = [same, one].map((of) => numberText(of.value, of.unit)) as [string, string];
    const step: Step = {
      question: MOVED_QUESTION,
      numbers: {
        ...Object.fromEntries(
          moves.flatMap((move): [string, number | string][] => {
            const name = `${move.moved.instant}${move.now.passage === undefined ? '' : ` of passage ${move.now.passage}`}`;
            return [
              [`${name} proposed, s`, move.proposed?.time ?? 'none'],
              [`${name} moved to, s`, move.now.time],
            ];
          }),
        ),
        'as proposed': was,
        'as moved': is,
      },
      answer: `Yes: ${moves.map((move) => `${move.moved.instant} ${told(move)}`).join('; ')}. As proposed it was ${was}; it is ${is}.`,
    };
    return { ...one, steps: [...one.steps, step] };
  });
}

const WORDS = { exact: '', atLeast: 'at least ', atMost: 'at most ' } as const;

function numberText(value: CharacteristicValue | NotEvaluated, unit: string): string {
  if (isNotEvaluated(value)) return `not evaluated (${value.notEvaluated.because})`;
  const print = (one: number) => `${printSignificant(one, 5)} ${unitSymbol(unit)}`.trim();
  if (value.kind === 'between') return `between ${print(value.lower)} and ${print(value.upper)}`;
  return `${WORDS[value.kind]}${print(value.value)}`;
}

/** A moment to the microsecond: as far as clocks of records go. */
function at(time: number): string {
  return `${Number(time.toFixed(6))} s`;
}
