import { nameOfLimit } from '@breakbook/acceptance';
import type { MarginStripInput, StripBound, StripLimit, StripSpecimen } from '@breakbook/figures';
import {
  isExternal,
  isNotEvaluated,
  type Limit,
  type LineResult,
  type NotEvaluated,
  notEvaluated,
} from '@breakbook/lab';
import { converter } from '@breakbook/units';
import {
  isValid,
  type JudgedLine,
  type JudgedLot,
  type JudgedRunOfLine,
  limitOf,
  limitValueOf,
  lineOf,
  resultOf,
  runsOf,
} from '../content/judged-lot.js';
import { PLAIN, type Printing } from '../words/printing.js';
import { both, boundInUnits, mapped, measuredInWords } from '../words/units.js';
import { axisOf } from './quantity.js';

/** The margin strip of a plan line: every valid specimen, the limits on its characteristic, and the bounds of its criteria. */
export function marginStripOf(
  judged: JudgedLot,
  line: string,
  printing: Printing = PLAIN,
): MarginStripInput | NotEvaluated {
  const { say, counted, units } = printing;
  const found = lineOf(judged, line);
  const { result, method } = found;
  const runs = runsOf(judged, found);
  const specimens = specimensOf(runs, result);
  if (specimens.length === 0) return notEvaluated('no valid run gives a value', 'a run is made, read and found valid');

  const limits = limitsOf(judged, found, printing);
  const bounds = boundsOf(judged, result, printing);
  const results = runs.flatMap((one) => resultOf(one, result.characteristic) ?? []);
  const lot = judged.bundle.lot.lot;
  const into = converter(result.unit, units.of(result.unit));
  const left = result.entries.length - specimens.length;
  return {
    title: say('{title} of lot {lot} against its limits', { title: result.title, lot }),
    alt: say('Margin strip. {specimens}. {others}.', {
      specimens: specimens
        .map(({ label, value }) => `${label}: ${both(measuredInWords({ value, unit: result.unit }, printing))}`)
        .join('; '),
      others: [...limits, ...bounds].map(({ words }) => words).join('. '),
    }),
    caption: say(
      '{title} of {specimens} of lot {lot}, {method} rev. {revision}, with the limits and lower bounds of plan {plan} rev. {planRevision}. {left}',
      {
        title: result.title,
        specimens: counted(specimens.length, 'specimen'),
        lot,
        method: method.method,
        revision: method.revision,
        plan: judged.lot.plan.plan,
        planRevision: judged.lot.plan.revision,
        left:
          left === 0
            ? say('Every run is shown.')
            : say('Not shown: {runs} without a valid value, listed with the runs.', { runs: counted(left, 'run') }),
      },
    ),
    quantity: axisOf(results, result, units),
    specimens: specimens.map((one) => ({ ...one, value: mapped(one.value, into) })),
    limits: limits.map(({ words: _, ...limit }) => ({ ...limit, value: into(limit.value) })),
    bounds: bounds.map(({ words: _, ...bound }) => boundMapped(bound, into)),
  };
}

function specimensOf(runs: readonly JudgedRunOfLine[], { characteristic }: LineResult): StripSpecimen[] {
  return runs.filter(isValid).flatMap((one): StripSpecimen[] => {
    const value = resultOf(one, characteristic)?.value;
    if (value === undefined || isNotEvaluated(value)) return [];
    return [{ label: one.run.specimen, value, inClaim: one.entry?.inClaim ?? false }];
  });
}

/**
 * The limits that bear on the line's characteristic, in its unit; a "between" limit is two strokes. Signs that must be
 * absent have no place on an axis of values.
 */
export function limitsOf(
  judged: JudgedLot,
  { limits, result }: JudgedLine,
  printing: Printing = PLAIN,
): (StripLimit & { words: string })[] {
  return limits
    .filter(({ bound, characteristic }) => bound !== 'absent' && characteristic === result.characteristic)
    .flatMap((limit) => {
      const value = limitValueOf(judged, limit);
      if (!value) return [];
      const strokes: [number | undefined, StripLimit['conforms']][] = [
        [value.lower, 'at or above'],
        [value.upper, 'at or below'],
      ];
      return strokes.flatMap(([at, conforms]) =>
        at === undefined
          ? []
          : [
              {
                label: labelOf(limit, printing),
                external: isExternal(limit),
                value: at,
                conforms,
                words: `${labelOf(limit, printing)}, ${printing.say(conforms)} ${both(measuredInWords({ value: { kind: 'exact', value: at }, unit: value.unit }, printing))}`,
              },
            ],
      );
    });
}

function labelOf(limit: Limit, { say, language }: Printing): string {
  const name = nameOfLimit(limit, language);
  return isExternal(limit) ? say('External limit {name}', { name }) : say('Internal limit {name}', { name });
}

export function boundsOf(
  judged: JudgedLot,
  result: LineResult,
  printing: Printing = PLAIN,
): (StripBound & { words: string })[] {
  const { say } = printing;
  return result.criteria.flatMap(({ bound, limit, limitValue, unit }) => {
    if (!bound || limitOf(judged.bundle, limit).characteristic !== result.characteristic) return [];
    const { value, estimate } = bound;
    return [
      {
        label: say('Lower bound'),
        value,
        estimate,
        against: limitValue,
        words: say('Lower bound {bound}, limit {limit}', {
          bound: both(boundInUnits(value, unit, limitValue, printing)),
          limit: both(measuredInWords({ value: { kind: 'exact', value: limitValue }, unit }, printing)),
        }),
      },
    ];
  });
}

function boundMapped({ value, estimate, against, ...bound }: StripBound, into: (value: number) => number): StripBound {
  return {
    ...bound,
    value: into(value),
    ...(estimate === undefined ? {} : { estimate: into(estimate) }),
    ...(against === undefined ? {} : { against: into(against) }),
  };
}
