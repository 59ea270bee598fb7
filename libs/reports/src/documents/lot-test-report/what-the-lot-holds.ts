import { capital, nameOfLimit, percent } from '@breakbook/acceptance';
import { marginStrip } from '@breakbook/figures';
import { type CriterionResult, isNotEvaluated, type LineResult } from '@breakbook/lab';
import { converter } from '@breakbook/units';
import { type JudgedLine, linesOf } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';
import { marginStripOf } from '../../figures/strip-input.js';
import type { Block, Section, Table } from '../../parts/blocks.js';
import {
  boundSaid,
  outliersInWords,
  pooledInWords,
  stagesInWords,
  statementInWords,
} from '../../words/judged-words.js';
import { type Printing, printingOf } from '../../words/printing.js';
import { besideInWords, boundInUnits, declaredInWords, measuredInWords } from '../../words/units.js';

/** The answer first: picture, claim, and each criterion with the numbers it rests on. */
export function whatTheLotHolds(content: LotReportContent): Section {
  const { notes } = content.lot;
  const printing = printingOf(content);
  const { say, told } = printing;
  return {
    heading: say('What does the lot hold?'),
    blocks: [
      ...linesOf(content).flatMap((line) => lineBlocks(content, line, printing)),
      { block: 'subheading', text: say('What must be known beside the numbers') },
      notes.length > 0 ? { block: 'list', items: notes.map(told) } : { block: 'paragraph', text: say('Nothing.') },
    ],
  };
}

function lineBlocks(content: LotReportContent, { line, result }: JudgedLine, printing: Printing): Block[] {
  const { say, told, figures } = printing;
  const strip = marginStripOf(content, line.line, printing);
  const several = content.bundle.plan.lines.length > 1;
  return [
    ...(several ? [{ block: 'subheading', text: `${line.title}: ${say(result.outcome)}` } as const] : []),
    isNotEvaluated(strip)
      ? { block: 'paragraph', text: say('No picture: {because}.', { because: told(strip.notEvaluated.because) }) }
      : { block: 'figure', scene: marginStrip({ ...strip, language: figures }) },
    ...result.criteria.map(
      (criterion): Block => ({
        block: 'paragraph',
        tone: 'claim',
        sign: criterion.outcome,
        text: claimSentence(criterion, content, printing),
      }),
    ),
    criteriaTable(result.criteria, printing),
    ...besideCriteria(result, printing),
  ];
}

/** Stages, earlier lots, outliers and, while runs are still to be made, the forecast: each as it was worded where it was found. */
function besideCriteria(result: LineResult, printing: Printing): Block[] {
  const { say } = printing;
  const pooled = pooledInWords(result, printing).map(([criterion, said]) =>
    say('Criterion {criterion}. {said}', { criterion, said }),
  );
  const { forecast } = result;
  return [
    ...said(say('Stages declared before the test'), stagesInWords(result, printing)),
    ...said(say('Earlier lots'), pooled),
    ...said(say('Values far from the others'), outliersInWords(result, printing)),
    ...(forecast === undefined
      ? []
      : said(say('Forecast, which decides nothing'), [forecastInWords(forecast, printing)])),
  ];
}

function said(heading: string, items: string[]): Block[] {
  if (items.length === 0) return [];
  return [
    { block: 'subheading', text: heading },
    { block: 'list', items },
  ];
}

function forecastInWords(forecast: NonNullable<LineResult['forecast']>, { say, told, number }: Printing): string {
  if (isNotEvaluated(forecast))
    return say('Not evaluated: {because}. Possible if {what}.', {
      because: told(forecast.notEvaluated.because),
      what: told(forecast.notEvaluated.possibleIf),
    });
  const { sentence, error, replicates, seed, assumptions } = forecast;
  return say('{sentence} Standard error {error} of {replicates} simulated lots, seed {seed}. Assumed: {assumptions}.', {
    sentence: told(sentence),
    error: number(error.toFixed(3)),
    replicates,
    seed,
    assumptions: assumptions.map(told).join('; '),
  });
}

/** The outcome of a criterion with what it says of the population, or why it says nothing. */
function claimSentence(criterion: CriterionResult, content: LotReportContent, printing: Printing): string {
  const { say, told, units } = printing;
  const { outcome, because, possibleIf, unit } = criterion;
  const said = boundSaid(criterion, printing, converter(unit, units.of(unit)));
  return [
    `${capital(say(outcome))} (${criterion.criterion}). ${said ?? statementInWords(criterion, content, printing)}`,
    ...(because === undefined ? [] : [`${capital(told(because))}.`]),
    ...(possibleIf === undefined ? [] : [say('It becomes possible if {what}.', { what: told(possibleIf) })]),
  ].join(' ');
}

function criteriaTable(criteria: readonly CriterionResult[], printing: Printing): Table {
  const { say, told, language } = printing;
  return {
    block: 'table',
    columns: [
      { title: say('Criterion') },
      { title: say('Outcome') },
      { title: say('Limit') },
      { title: say('Lower bound'), align: 'number' },
      { title: say('Estimate'), align: 'number' },
      { title: say('Coverage and confidence') },
      { title: say('How found') },
    ],
    rows: criteria.map(({ criterion, kind, outcome, limit, limitValue, unit, bound }) => {
      const limitElse = besideInWords(limitValue, unit, printing);
      const [boundFirst, boundSecond] = bound
        ? boundInUnits(bound.value, unit, limitValue, printing)
        : [say('none'), ''];
      const [estimateFirst, estimateSecond] = bound
        ? measuredInWords({ value: { kind: 'exact', value: bound.estimate }, unit, limits: [limitValue] }, printing)
        : [say('none'), ''];
      return [
        { text: criterion, under: told(kind) },
        { text: say(outcome), sign: outcome },
        {
          text: declaredInWords(limitValue, unit, printing),
          under: `${limitElse === '' ? '' : `${limitElse}, `}${nameOfLimit(limit, language)}`,
        },
        { text: boundFirst, under: boundSecond },
        { text: estimateFirst, under: estimateSecond },
        bound ? `${percent(bound.coverage, language)}, ${percent(bound.confidence, language)}` : say('none claimed'),
        bound
          ? {
              text: told(bound.technique),
              under: say('reaches {confidence}', {
                confidence: percent(Number(bound.achievedConfidence.toFixed(3)), language),
              }),
            }
          : '',
      ];
    }),
    empty: say('The plan states no criterion.'),
  };
}
