import { boundSentence, capital, percent } from '@breakbook/acceptance';
import { marginStrip } from '@breakbook/figures';
import { type CriterionResult, isNotEvaluated, type LineResult, limitName } from '@breakbook/lab';
import { type JudgedLine, linesOf } from '../../content/judged-lot.js';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { marginStripOf } from '../../figures/strip-input.js';
import { type Block, type Section, type Table } from '../../parts/blocks.js';
import { boundInUnits, declaredInWords, measuredInWords } from '../../words/units.js';

/** The answer first: picture, claim, and each criterion with the numbers it rests on. */
export function whatTheLotHolds(content: LotReportContent): Section {
  const { notes } = content.lot;
  return {
    heading: 'What does the lot hold?',
    blocks: [
      ...linesOf(content).flatMap((line) => lineBlocks(content, line)),
      { block: 'subheading', text: 'What must be known beside the numbers' },
      notes.length > 0 ? { block: 'list', items: notes } : { block: 'paragraph', text: 'Nothing.' },
    ],
  };
}

function lineBlocks(content: LotReportContent, { line, result }: JudgedLine): Block[] {
  const strip = marginStripOf(content, line.line);
  const several = content.bundle.plan.lines.length > 1;
  return [
    ...(several ? [{ block: 'subheading', text: `${line.title}: ${result.outcome}` } as const] : []),
    isNotEvaluated(strip)
      ? { block: 'paragraph', text: `No picture: ${strip.notEvaluated.because}.` }
      : { block: 'figure', scene: marginStrip(strip) },
    ...result.criteria.map(
      (criterion): Block => ({
        block: 'paragraph',
        tone: 'claim',
        sign: criterion.outcome,
        text: claimSentence(criterion),
      }),
    ),
    criteriaTable(result.criteria),
    ...besideCriteria(result),
  ];
}

/** Stages, earlier lots, outliers and, while runs are still to be made, the forecast: each as it was worded where it was found. */
function besideCriteria({ stages = [], criteria, outliers = [], forecast }: LineResult): Block[] {
  const pooled = criteria.flatMap(({ criterion, pooled: found }) =>
    found?.sentence === undefined ? [] : [`Criterion ${criterion}. ${found.sentence}`],
  );
  return [
    ...said('Stages declared before the test', sentencesIn(stages)),
    ...said('Earlier lots', pooled),
    ...said('Values far from the others', sentencesIn(outliers)),
    ...(forecast === undefined ? [] : said('Forecast, which decides nothing', forecastInWords(forecast))),
  ];
}

function said(heading: string, items: string[]): Block[] {
  if (items.length === 0) return [];
  return [
    { block: 'subheading', text: heading },
    { block: 'list', items },
  ];
}

function sentencesIn(found: readonly { sentence?: string | undefined }[]): string[] {
  return found.flatMap(({ sentence }) => sentence ?? []);
}

function forecastInWords(forecast: NonNullable<LineResult['forecast']>): string[] {
  if (isNotEvaluated(forecast))
    return [`Not evaluated: ${forecast.notEvaluated.because}. Possible if ${forecast.notEvaluated.possibleIf}.`];
  const { sentence, error, replicates, seed, assumptions } = forecast;
  return [
    `${sentence} Standard error ${error.toFixed(3)} of ${replicates} simulated lots, seed ${seed}. Assumed: ${assumptions.join('; ')}.`,
  ];
}

/** The outcome of a criterion with what it says of the population, or why it says nothing. */
function claimSentence(criterion: CriterionResult): string {
  const { outcome, statement, because, possibleIf } = criterion;
  const why = because === undefined ? '' : ` ${capital(because)}.`;
  const help = possibleIf === undefined ? '' : ` It becomes possible if ${possibleIf}.`;
  return `${capital(outcome)} (${criterion.criterion}). ${boundSaid(criterion) ?? statement}${why}${help}`;
}

function boundSaid({ bound, numbers, unit, limitValue, pooled }: CriterionResult): string | undefined {
  const { population } = numbers;
  // Values that are pooled are all of broken specimens: others cannot be ranked among them.
  const { specimens, broken } = pooled?.used ? { specimens: pooled.n, broken: pooled.n } : numbers;
  if (!bound || typeof specimens !== 'number' || typeof broken !== 'number') return undefined;
  const { value, coverage, confidence } = bound;
  return boundSentence({
    bound: value,
    unit,
    coverage,
    confidence,
    population: population === 'lot' ? 'lot' : 'process',
    n: specimens,
    failures: broken,
    limit: limitValue,
  });
}

function criteriaTable(criteria: readonly CriterionResult[]): Table {
  return {
    block: 'table',
    columns: [
      { title: 'Criterion' },
      { title: 'Outcome' },
      { title: 'Limit' },
      { title: 'Lower bound', align: 'number' },
      { title: 'Estimate', align: 'number' },
      { title: 'Coverage and confidence' },
      { title: 'How found' },
    ],
    rows: criteria.map(({ criterion, kind, outcome, limit, limitValue, unit, bound }) => {
      const [, limitSecond] = measuredInWords({ value: { kind: 'exact', value: limitValue }, unit });
      const [boundFirst, boundSecond] = bound ? boundInUnits(bound.value, unit, limitValue) : ['none', ''];
      const [estimateFirst, estimateSecond] = bound
        ? measuredInWords({ value: { kind: 'exact', value: bound.estimate }, unit, limits: [limitValue] })
        : ['none', ''];
      return [
        { text: criterion, under: kind },
        { text: outcome, sign: outcome },
        {
          text: declaredInWords(limitValue, unit),
          under: `${limitSecond === '' ? '' : `${limitSecond}, `}${limitName(limit)}`,
        },
        { text: boundFirst, under: boundSecond },
        { text: estimateFirst, under: estimateSecond },
        bound ? `${percent(bound.coverage)}, ${percent(bound.confidence)}` : 'none claimed',
        bound
          ? { text: bound.technique, under: `reaches ${percent(Number(bound.achievedConfidence.toFixed(3)))}` }
          : '',
      ];
    }),
    empty: 'The plan states no criterion.',
  };
}
