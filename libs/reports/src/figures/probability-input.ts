import { percent } from '@breakbook/acceptance';
import {
  type FittedDistribution,
  fitInto,
  type PaperDistribution,
  type ProbabilityPlotInput,
} from '@breakbook/figures';
import { isNotEvaluated, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { plottingPositions } from '@breakbook/statistics';
import { converter, printSignificant } from '@breakbook/units';
import { type JudgedLot, limitOf, lineOf, resultOf, runsOf } from '../content/judged-lot.js';
import { PLAIN, type Printing } from '../words/printing.js';
import { both, measuredInWords, uncertaintyInWords } from '../words/units.js';
import { declaredDistribution, fittedBand } from './fitted-band.js';
import { axisOf } from './quantity.js';
import { limitsOf } from './strip-input.js';

/**
 * The probability plot of a plan line: the specimens of its claim at their median ranks, on the paper of the distribution
 * that the plan declares.
 */
export function probabilityPlotOf(
  judged: JudgedLot,
  line: string,
  printing: Printing = PLAIN,
): ProbabilityPlotInput | NotEvaluated {
  const { say, counted, number, language, units } = printing;
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
  const distribution = declaredDistribution(found.line.criteria);
  if (distribution !== 'normal' && [...exact, ...atLeast].some(({ value }) => value <= 0))
    return notEvaluated('a value of 0 or less has no place on a logarithmic scale', 'the value is found to be wrong');
  const positions = plottingPositions(sample);
  if (isNotEvaluated(positions)) return positions;

  // No distribution is drawn through fewer specimens than the method asks for.
  const fitted = isNotEvaluated(result.weibull)
    ? result.weibull
    : fittedBand(distribution, sample, result.weibull.confidence);
  const fit = isNotEvaluated(fitted) ? undefined : fitted;
  const confidence = isNotEvaluated(result.weibull) ? 0 : result.weibull.confidence;
  const bound = result.criteria.find(
    (one) => one.bound && limitOf(judged.bundle, one.limit).characteristic === result.characteristic,
  );
  const lot = judged.bundle.lot.lot;
  const into = converter(result.unit, units.of(result.unit));
  const difference = converter(result.unit, units.of(result.unit), { difference: true });
  const printed = (value: number) =>
    both(measuredInWords({ value: { kind: 'exact', value }, unit: result.unit }, printing));
  return {
    title: say('{paper} probability plot, {title} of lot {lot}', {
      paper: say(PAPER_NAMES[distribution]),
      title: language === 'en' ? result.title.toLowerCase() : result.title,
      lot,
    }),
    alt: [
      say('{paper} probability plot of {broken} and {held} that held at least a value.', {
        paper: say(PAPER_NAMES[distribution]),
        broken: counted(exact.length, 'broken specimen'),
        held: counted(atLeast.length, 'specimen'),
      }),
      `${positions.points
        .map(({ value, exact: share }) =>
          say('{value} at {share}', {
            value: printed(value ?? 0),
            share: `${number(printSignificant(100 * share, 3))} %`,
          }),
        )
        .join('; ')}.`,
      ...(fit ? [lineSaid(fit.fit, printing, result.unit)] : []),
    ].join(' '),
    caption: say(
      '{title} of the {specimens} in the claim, at exact median ranks (adjusted for specimens that held at least a value). {fit} Method {method} rev. {revision}.',
      {
        title: result.title,
        specimens: counted(claim.length, 'specimen'),
        fit: fit ? say('Line: maximum likelihood fit; it describes and does not decide.') : say('No line is fitted.'),
        method: method.method,
        revision: method.revision,
      },
    ),
    quantity: axisOf(
      runsOf(judged, found).flatMap((one) => resultOf(one, result.characteristic) ?? []),
      result,
      units,
    ),
    failures: positions.points.map(({ value = 0, exact: fraction }, index) => ({
      label: exact[index]?.label ?? '',
      value: into(value),
      fraction,
    })),
    atLeast: atLeast.map((one) => ({ ...one, value: into(one.value) })),
    distribution,
    ...(fit
      ? {
          fit: fitInto(fit.fit, into, difference),
          band: {
            label: say('{confidence} confidence limits, profile likelihood', { confidence: percent(confidence) }),
            limits: fit.limits.map((one) => ({ ...one, lower: into(one.lower), upper: into(one.upper) })),
          },
        }
      : {}),
    ...(bound?.bound
      ? {
          bound: {
            label: say('Lower bound'),
            value: into(bound.bound.value),
            estimate: into(bound.bound.estimate),
            fraction: 1 - bound.bound.coverage,
            against: into(bound.limitValue),
          },
        }
      : {}),
    limits: limitsOf(judged, found, printing).map(({ words: _, ...limit }) => ({ ...limit, value: into(limit.value) })),
  };
}

const PAPER_NAMES = { weibull: 'Weibull', normal: 'Normal', lognormal: 'Lognormal' } as const satisfies Record<
  PaperDistribution,
  string
>;

function lineSaid(fit: FittedDistribution, printing: Printing, unit: string): string {
  const { say, number } = printing;
  const printed = (value: number) => both(measuredInWords({ value: { kind: 'exact', value }, unit }, printing));
  const pure = (value: number) => number(printSignificant(value, 3));
  switch (fit.distribution) {
    case 'weibull':
      return say('Fitted line of shape {shape} and scale {scale}.', {
        shape: pure(fit.shape),
        scale: printed(fit.scale),
      });
    case 'normal':
      return say('Fitted line of mean {mean} and standard deviation {sd}.', {
        mean: printed(fit.mean),
        sd: both(uncertaintyInWords(fit.sd, unit, printing)),
      });
    case 'lognormal':
      return say('Fitted line of median {median} and log standard deviation {sd}.', {
        median: printed(fit.median),
        sd: pure(fit.logSd),
      });
  }
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
