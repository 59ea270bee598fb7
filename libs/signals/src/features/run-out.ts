import { type Measurement, type NotEvaluated, notEvaluated, type Run } from '@breakbook/lab';
import type { Computed } from './characteristic.js';
import { inUnit } from './words.js';

/** One reading of run-out, mm, at its place. */
export interface RunOutReading {
  value: number;
  place: string | undefined;
  measurement: Measurement;
}

const NAMES = new Map<string, { of: string; kind: 'change' | 'growth' }>(
  (['lateral', 'radial'] as const).flatMap((direction) =>
    (['Change', 'Growth'] as const).map((kind): [string, { of: string; kind: 'change' | 'growth' }] => [
      `${direction}RunOut${kind}`,
      { of: `${direction}RunOut`, kind: kind === 'Change' ? 'change' : 'growth' },
    ]),
  ),
);

/**
 * What the strikes did to the run-out, by readings keyed before and after: `lateralRunOutBefore`, `lateralRunOutAfter` and
 * the radial ones. Of several passages, before the first and after the last.
 *
 *     change = largest after − largest before
 *     growth = largest |after − before| at one place
 *
 * The second shows a local dent that the first hides behind a larger run-out elsewhere. Undefined for another name.
 *
 * Common practice, no source.
 */
export function runOut(name: string, run: Run, readings: (of: string) => RunOutReading[]): Computed | undefined {
  const wanted = NAMES.get(name);
  if (!wanted) return undefined;
  const numbers = (run.passages ?? []).map(({ passage }) => passage);
  const ofPassage = (of: string, passage: number | undefined) =>
    readings(of).filter(({ measurement }) => measurement.passage === undefined || measurement.passage === passage);
  const before = ofPassage(`${wanted.of}Before`, numbers[0]);
  const after = ofPassage(`${wanted.of}After`, numbers.at(-1));
  const none = (value: NotEvaluated): Computed => ({ value, unit: 'mm', steps: [], source: 'keyed' });
  if (before.length === 0 || after.length === 0) {
    const missing = [before.length === 0 ? `${wanted.of}Before` : '', after.length === 0 ? `${wanted.of}After` : ''];
    return none(
      notEvaluated(
        `no ${missing.filter((one) => one !== '').join(' and no ')} was keyed for run ${run.run}`,
        'run-out is keyed before and after, each with its place',
      ),
    );
  }
  return wanted.kind === 'change' ? change(before, after) : growth(before, after, run);
}

function change(before: readonly RunOutReading[], after: readonly RunOutReading[]): Computed {
  const [largestBefore, largestAfter] = [before, after].map((all) => Math.max(...all.map(({ value }) => value))) as [
    number,
    number,
  ];
  return {
    value: { kind: 'exact', value: largestAfter - largestBefore },
    unit: 'mm',
    source: 'keyed',
    steps: [
      {
        question: 'How much larger is the largest run-out?',
        numbers: {
          'readings before': before.length,
          'largest before, mm': largestBefore,
          'readings after': after.length,
          'largest after, mm': largestAfter,
          ...who(after),
        },
        answer: `${inUnit('mm')(largestAfter - largestBefore)}: largest after less largest before.`,
      },
    ],
  };
}

function growth(before: readonly RunOutReading[], after: readonly RunOutReading[], run: Run): Computed {
  const pairs = after.flatMap((there) => {
    if (there.place === undefined) return [];
    const same = before.filter(({ place }) => place === there.place);
    return same.length === 1 && same[0] ? [{ place: there.place, before: same[0].value, after: there.value }] : [];
  });
  const [first] = pairs;
  if (!first || pairs.length < after.length)
    return {
      value: notEvaluated(
        `of ${after.length} readings after, ${pairs.length} have one reading before at the same place in run ${run.run}`,
        'every reading is keyed with its place from the same datum, the same places before and after',
      ),
      unit: 'mm',
      steps: [],
      source: 'keyed',
    };
  const size = (one: typeof first) => Math.abs(one.after - one.before);
  const worst = pairs.reduce((most, one) => (size(one) > size(most) ? one : most), first);
  return {
    value: { kind: 'exact', value: size(worst) },
    unit: 'mm',
    source: 'keyed',
    steps: [
      {
        question: 'By how much did it change at one place?',
        numbers: {
          places: pairs.length,
          place: worst.place,
          'before, mm': worst.before,
          'after, mm': worst.after,
          ...who(after),
        },
        answer: `${inUnit('mm')(size(worst))}, the largest change at one of ${pairs.length} place${pairs.length === 1 ? '' : 's'}.`,
      },
    ],
  };
}

function who(readings: readonly RunOutReading[]): { instrument: string; person: string } {
  const [first] = readings;
  if (!first) throw new RangeError('who: needs at least one reading.');
  return { instrument: first.measurement.instrument, person: first.measurement.person };
}
