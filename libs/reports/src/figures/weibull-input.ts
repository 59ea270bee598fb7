import { counted } from '@breakbook/acceptance';
import { type WeibullPlotInput } from '@breakbook/figures';
import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { plottingPositions } from '@breakbook/statistics';
import { printSignificant } from '@breakbook/units';
import { type JudgedLot, limitOf, lineOf, resultOf, runsOf } from '../content/judged-lot.js';
import { both, measuredInWords } from '../words/units.js';
import { axisOf } from './quantity.js';
import { limitsOf } from './strip-input.js';

/** The Weibull probability plot of a plan line: the specimens of its claim at their median ranks. */
export function weibullPlotOf(judged: JudgedLot, line: string): WeibullPlotInput | NotEvaluated {
  const found = lineOf(judged, line);
  const { result, method } = found;
  const claim = runsOf(judged, found)
    .filter(({ entry }) => entry?.inClaim)
    .flatMap((one) => {
      const value = resultOf(one, result.characteristic)?.value;
      return value === undefined || isNotEvaluated(value) ? [] : [{ label: one.run.specimen, value }];
    });
  if (claim.some(({ value }) => value.kind === 'atMost' || value.kind === 'between'))
    return notEvaluated(
      'strengths known only as at most or between have no rank on the plot',
      'every strength is known exactly or as at least',
    );
  const exact = valuesOf(claim, 'exact');
  const atLeast = valuesOf(claim, 'atLeast');
  const sample: Sample = { exact: exact.map(({ value }) => value), atLeast: atLeast.map(({ value }) => value) };
  if (exact.some(({ value }) => value <= 0))
    return notEvaluated('a value of 0 or less has no place on a logarithmic scale', 'the value is found to be wrong');
  const positions = plottingPositions(sample);
  if (isNotEvaluated(positions)) return positions;

  const fit = isNotEvaluated(result.weibull) ? undefined : result.weibull;
  const bound = result.criteria.find(
    (one) => one.bound && limitOf(judged.bundle, one.limit).characteristic === result.characteristic,
  );
  const lot = judged.bundle.lot.lot;
  return {
    title: `Weibull probability plot, ${result.title.toLowerCase()} of lot ${lot}`,
    alt: `Weibull probability plot of ${counted(exact.length, 'broken specimen')} and ${counted(atLeast.length, 'specimen')} that held at least a value. ${positions.points.map(({ value, exact: share }) => `${both(measuredInWords({ value: { kind: 'exact', value: value ?? 0 }, unit: result.unit }))} at ${printSignificant(100 * share, 3)} %`).join('; ')}.${fit ? ` Fitted line of shape ${printSignificant(fit.shape, 3)} and scale ${both(measuredInWords({ value: { kind: 'exact', value: fit.scale }, unit: result.unit }))}.` : ''}`,
    caption: `${result.title} of the ${counted(claim.length, 'specimen')} in the claim, at exact median ranks (adjusted for specimens that held at least a value). ${fit ? 'Line: maximum likelihood fit; it describes and does not decide.' : 'No line is fitted.'} Method ${method.method} rev. ${method.revision}.`,
    quantity: axisOf(
      runsOf(judged, found).flatMap((one) => resultOf(one, result.characteristic) ?? []),
      result,
    ),
    failures: positions.points.map(({ value = 0, exact: fraction }, index) => ({
      label: exact[index]?.label ?? '',
      value,
      fraction,
    })),
    atLeast,
    ...(fit ? { fit: { shape: fit.shape, scale: fit.scale } } : {}),
    ...(bound?.bound
      ? {
          bound: {
            label: 'Lower bound',
            value: bound.bound.value,
            estimate: bound.bound.estimate,
            fraction: 1 - bound.bound.coverage,
            against: bound.limitValue,
          },
        }
      : {}),
    limits: limitsOf(judged, found).map(({ words: _, ...limit }) => limit),
  };
}

/** Of one kind, from the lowest up: the order in which plotting positions are given. */
function valuesOf(
  claim: readonly { label: string; value: { kind: string; value?: number } }[],
  kind: 'exact' | 'atLeast',
): { label: string; value: number }[] {
  return claim
    .flatMap(({ label, value }) =>
      value.kind === kind && value.value !== undefined ? [{ label, value: value.value }] : [],
    )
    .sort((a, b) => a.value - b.value);
}
