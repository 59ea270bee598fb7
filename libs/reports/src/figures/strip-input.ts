import { counted } from '@breakbook/acceptance';
import { type MarginStripInput, type StripBound, type StripLimit, type StripSpecimen } from '@breakbook/figures';
import {
  isExternal,
  isNotEvaluated,
  type Limit,
  type LineResult,
  limitName,
  type NotEvaluated,
  notEvaluated,
} from '@breakbook/lab';
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
import { both, boundInUnits, measuredInWords } from '../words/units.js';
import { axisOf } from './quantity.js';

/** The margin strip of a plan line: every valid specimen, the limits on its characteristic, and the bounds of its criteria. */
export function marginStripOf(judged: JudgedLot, line: string): MarginStripInput | NotEvaluated {
  const found = lineOf(judged, line);
  const { result, method } = found;
  const runs = runsOf(judged, found);
  const specimens = specimensOf(runs, result.characteristic);
  if (specimens.length === 0) return notEvaluated('no valid run gives a value', 'a run is made, read and found valid');

  const limits = limitsOf(judged, found);
  const bounds = boundsOf(judged, result);
  const results = runs.flatMap((one) => resultOf(one, result.characteristic) ?? []);
  const lot = judged.bundle.lot.lot;
  const left = result.entries.length - specimens.length;
  return {
    title: `${result.title} of lot ${lot} against its limits`,
    alt: `Margin strip. ${specimens.map(({ label, value }) => `${label}: ${both(measuredInWords({ value, unit: result.unit }))}`).join('; ')}. ${[...limits.map(({ words }) => words), ...bounds.map(({ words }) => words)].join('. ')}.`,
    caption: `${result.title} of ${counted(specimens.length, 'specimen')} of lot ${lot}, ${method.method} rev. ${method.revision}, with the limits and lower bounds of plan ${judged.lot.plan.plan} rev. ${judged.lot.plan.revision}. ${left === 0 ? 'Every run is shown.' : `Not shown: ${counted(left, 'run')} without a valid value, listed with the runs.`}`,
    quantity: axisOf(results, result),
    specimens,
    limits: limits.map(({ words: _, ...limit }) => limit),
    bounds: bounds.map(({ words: _, ...bound }) => bound),
  };
}

function specimensOf(runs: readonly JudgedRunOfLine[], characteristic: string): StripSpecimen[] {
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
export function limitsOf(judged: JudgedLot, { limits, result }: JudgedLine): (StripLimit & { words: string })[] {
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
                label: labelOf(limit),
                external: isExternal(limit),
                value: at,
                conforms,
                words: `${labelOf(limit)}, ${conforms} ${both(measuredInWords({ value: { kind: 'exact', value: at }, unit: value.unit }))}`,
              },
            ],
      );
    });
}

const BASIS = { external: 'External', internal: 'Internal' } as const;

function labelOf(limit: Limit): string {
  return `${isExternal(limit) ? BASIS.external : BASIS.internal} limit ${limitName(limit)}`;
}

export function boundsOf(judged: JudgedLot, result: LineResult): (StripBound & { words: string })[] {
  return result.criteria.flatMap(({ bound, limit, limitValue, unit }) => {
    if (!bound || limitOf(judged.bundle, limit).characteristic !== result.characteristic) return [];
    const { value, estimate } = bound;
    return [
      {
        label: 'Lower bound',
        value,
        estimate,
        against: limitValue,
        words: `Lower bound ${both(boundInUnits(value, unit, limitValue))}, limit ${both(measuredInWords({ value: { kind: 'exact', value: limitValue }, unit }))}`,
      },
    ];
  });
}
