import { percent, planInWords, poolingInWords } from '@breakbook/acceptance';
import { probabilityPlot, staircase } from '@breakbook/figures';
import { type CriterionResult, isNotEvaluated } from '@breakbook/lab';
import { printSignificant } from '@breakbook/units';
import { type JudgedLine, linesOf } from '../../content/judged-lot.js';
import type { LotReportContent } from '../../content/lot-report-content.js';
import { probabilityPlotOf } from '../../figures/probability-input.js';
import { staircaseOf } from '../../figures/staircase-input.js';
import type { Block, Fact, Section } from '../../parts/blocks.js';
import { statementInWords } from '../../words/judged-words.js';
import { type Printing, printingOf } from '../../words/printing.js';
import { both, boundInUnits, measuredInWords, uncertaintyInWords } from '../../words/units.js';

/** How the specimens of the claim scatter, what was fitted, and how each bound was found. */
export function spreadSection(content: LotReportContent): Section {
  const printing = printingOf(content);
  const { say, units } = printing;
  return {
    heading: say('How do the specimens spread, and how was the bound found?'),
    blocks: [
      ...(units.chosen
        ? [
            {
              block: 'paragraph',
              tone: 'note',
              text: say('How a bound was found is told in the units in which it was computed.'),
            } as const,
          ]
        : []),
      { block: 'subheading', text: say('Declared before the first run') },
      { block: 'facts', columns: 3, facts: declared(content, printing) },
      ...asked(content, printing),
      ...linesOf(content).flatMap((line) => lineBlocks(content, line, printing)),
    ],
  };
}

function lineBlocks(content: LotReportContent, line: JudgedLine, printing: Printing): Block[] {
  const { say, language } = printing;
  const { title } = line.result;
  return [
    {
      block: 'subheading',
      text: say('{title}: {characteristic}, plan line {line}', {
        title: line.line.title,
        characteristic: language === 'en' ? title.toLowerCase() : title,
        line: line.line.line,
      }),
    },
    { block: 'facts', columns: 3, facts: statistics(line, printing) },
    figureOf(content, line, printing),
    ...line.result.criteria.map((criterion) => stepsTable(criterion, content, printing)),
  ];
}

/** Strikes are shown one after the other where the line asks for the load at which a share breaks: they have no ranks. */
function figureOf(content: LotReportContent, { line: { line } }: JudgedLine, printing: Printing): Block {
  const { say, told, figures } = printing;
  const strikes = staircaseOf(content, line, printing);
  if (strikes && !isNotEvaluated(strikes))
    return { block: 'figure', scene: staircase({ ...strikes, language: figures }) };
  const plot = probabilityPlotOf(content, line, printing);
  if (!isNotEvaluated(plot)) return { block: 'figure', scene: probabilityPlot({ ...plot, language: figures }) };
  return {
    block: 'paragraph',
    text: say('No probability plot: {because}. Possible if {what}.', {
      because: told(plot.notEvaluated.because),
      what: told(plot.notEvaluated.possibleIf),
    }),
  };
}

function statistics({ result }: JudgedLine, printing: Printing): Fact[] {
  const { say, told, number, language } = printing;
  const { summary, weibull, unit, counts, entries } = result;
  const claimed = entries.filter(({ inClaim }) => inClaim);
  const kinds = claimed.flatMap(({ result: one }) => (one && !isNotEvaluated(one.value) ? [one.value.kind] : []));
  const broken = kinds.filter((kind) => kind !== 'atLeast').length;
  const value = (one: number) => both(measuredInWords({ value: { kind: 'exact', value: one }, unit }, printing));
  const without = (because: string) => say('not evaluated: {because}', { because: told(because) });
  return [
    {
      label: say('Specimens in the claim'),
      value: say('{n}: {broken} broken, {held} held at least their value', {
        n: counts.inClaim,
        broken,
        held: kinds.length - broken,
      }),
    },
    ...(isNotEvaluated(summary)
      ? [{ label: say('Mean and standard deviation'), value: without(summary.notEvaluated.because) }]
      : [
          { label: say('Mean'), value: value(summary.mean) },
          { label: say('Standard deviation'), value: both(uncertaintyInWords(summary.sd, unit, printing)) },
          {
            label: say('Lowest and highest'),
            value: say('{low} to {high}', { low: value(summary.min), high: value(summary.max) }),
          },
        ]),
    ...(isNotEvaluated(weibull)
      ? [{ label: say('Weibull fit'), value: without(weibull.notEvaluated.because) }]
      : [
          {
            label: say('Weibull shape, maximum likelihood'),
            value: `${number(printSignificant(weibull.shape, 3))}${
              isNotEvaluated(weibull.shapeLimits)
                ? ''
                : say(', {confidence} limits {limits}', {
                    confidence: percent(weibull.confidence, language),
                    limits: weibull.shapeLimits.map((limit) => number(printSignificant(limit, 3))).join(say(' to ')),
                  })
            }`,
          },
          { label: say('Weibull scale (63.2 %)'), value: value(weibull.scale) },
        ]),
  ];
}

/** What the plan said before the first run. */
function declared({ bundle }: LotReportContent, { say, language }: Printing): Fact[] {
  const { claim } = bundle.plan;
  return [
    { label: say('Claim declared before the test'), value: claim.statement },
    {
      label: say('Population, use'),
      value: `${claim.population === 'lot' ? say('the units of this lot') : say('the process that made the lot')}; ${claim.use}`,
    },
    { label: say('Modes'), value: claim.modeSet },
    { label: say('Values known from one side'), value: claim.censoring },
    { label: say('Pooling with other lots'), value: poolingInWords(claim.pooling, language) },
  ];
}

/** What each plan line asks for, sentence by sentence. */
function asked({ bundle }: LotReportContent, { say, language }: Printing): Block[] {
  return planInWords(bundle.plan, bundle.limits, language).lines.flatMap(({ line, title, says }): Block[] => [
    { block: 'paragraph', text: say('Plan line {line}, {title}:', { line, title }) },
    { block: 'list', items: says },
  ]);
}

function stepsTable(found: CriterionResult, content: LotReportContent, printing: Printing): Block {
  const { say, told } = printing;
  const { criterion, steps, boundAllModes, unit, limitValue } = found;
  const allModes = !boundAllModes
    ? say('no other mode was told apart')
    : isNotEvaluated(boundAllModes)
      ? say('not evaluated: {because}', { because: told(boundAllModes.notEvaluated.because) })
      : both(boundInUnits(boundAllModes.value, unit, limitValue, printing));
  return {
    block: 'table',
    title: `${criterion}: ${statementInWords(found, content, printing)}`,
    columns: [{ title: say('Question') }, { title: say('Answer') }],
    rows: [
      ...steps.map(({ question, answer }) => [told(question), told(answer)]),
      ...(boundAllModes ? [[say('The bound with every mode counted as a failure'), allModes]] : []),
    ],
    empty: say('no step was needed'),
  };
}
