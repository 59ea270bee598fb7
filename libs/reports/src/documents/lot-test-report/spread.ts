import { percent, planInWords, poolingInWords } from '@breakbook/acceptance';
import { weibullPlot } from '@breakbook/figures';
import { type CriterionResult, isNotEvaluated } from '@breakbook/lab';
import { printSignificant } from '@breakbook/units';
import { type JudgedLine, linesOf } from '../../content/judged-lot.js';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { weibullPlotOf } from '../../figures/weibull-input.js';
import { type Block, type Fact, type Section } from '../../parts/blocks.js';
import { both, boundInUnits, measuredInWords, uncertaintyInWords } from '../../words/units.js';

/** How the specimens of the claim scatter, what was fitted, and how each bound was found. */
export function spreadSection(content: LotReportContent): Section {
  return {
    heading: 'How do the specimens spread, and how was the bound found?',
    blocks: [
      { block: 'subheading', text: 'Declared before the first run' },
      { block: 'facts', columns: 3, facts: declared(content) },
      ...asked(content),
      ...linesOf(content).flatMap((line) => lineBlocks(content, line)),
    ],
  };
}

function lineBlocks(content: LotReportContent, line: JudgedLine): Block[] {
  const plot = weibullPlotOf(content, line.line.line);
  return [
    {
      block: 'subheading',
      text: `${line.line.title}: ${line.result.title.toLowerCase()}, plan line ${line.line.line}`,
    },
    { block: 'facts', columns: 3, facts: statistics(line) },
    isNotEvaluated(plot)
      ? {
          block: 'paragraph',
          text: `No probability plot: ${plot.notEvaluated.because}. Possible if ${plot.notEvaluated.possibleIf}.`,
        }
      : { block: 'figure', scene: weibullPlot(plot) },
    ...line.result.criteria.map((criterion) => stepsTable(criterion)),
  ];
}

function statistics({ result }: JudgedLine): Fact[] {
  const { summary, weibull, unit, counts, entries } = result;
  const claimed = entries.filter(({ inClaim }) => inClaim);
  const kinds = claimed.flatMap(({ result: one }) => (one && !isNotEvaluated(one.value) ? [one.value.kind] : []));
  const broken = kinds.filter((kind) => kind !== 'atLeast').length;
  const value = (number: number) => both(measuredInWords({ value: { kind: 'exact', value: number }, unit }));
  return [
    {
      label: 'Specimens in the claim',
      value: `${counts.inClaim}: ${broken} broken, ${kinds.length - broken} held at least their value`,
    },
    ...(isNotEvaluated(summary)
      ? [{ label: 'Mean and standard deviation', value: `not evaluated: ${summary.notEvaluated.because}` }]
      : [
          { label: 'Mean', value: value(summary.mean) },
          { label: 'Standard deviation', value: both(uncertaintyInWords(summary.sd, unit)) },
          { label: 'Lowest and highest', value: `${value(summary.min)} to ${value(summary.max)}` },
        ]),
    ...(isNotEvaluated(weibull)
      ? [{ label: 'Weibull fit', value: `not evaluated: ${weibull.notEvaluated.because}` }]
      : [
          {
            label: 'Weibull shape, maximum likelihood',
            value: `${printSignificant(weibull.shape, 3)}${isNotEvaluated(weibull.shapeLimits) ? '' : `, ${percent(weibull.confidence)} limits ${weibull.shapeLimits.map((limit) => printSignificant(limit, 3)).join(' to ')}`}`,
          },
          { label: 'Weibull scale (63.2 %)', value: value(weibull.scale) },
        ]),
  ];
}

/** What the plan said before the first run. */
function declared({ bundle }: LotReportContent): Fact[] {
  const { claim } = bundle.plan;
  return [
    { label: 'Claim declared before the test', value: claim.statement },
    {
      label: 'Population, use',
      value: `${claim.population === 'lot' ? 'the units of this lot' : 'the process that made the lot'}; ${claim.use}`,
    },
    { label: 'Modes', value: claim.modeSet },
    { label: 'Values known from one side', value: claim.censoring },
    { label: 'Pooling with other lots', value: poolingInWords(claim.pooling) },
  ];
}

/** What each plan line asks for, sentence by sentence. */
function asked({ bundle }: LotReportContent): Block[] {
  return planInWords(bundle.plan, bundle.limits).lines.flatMap(({ line, title, says }): Block[] => [
    { block: 'paragraph', text: `Plan line ${line}, ${title}:` },
    { block: 'list', items: says },
  ]);
}

function stepsTable({ criterion, statement, steps, boundAllModes, unit, limitValue }: CriterionResult): Block {
  const allModes = !boundAllModes
    ? 'no other mode was told apart'
    : isNotEvaluated(boundAllModes)
      ? `not evaluated: ${boundAllModes.notEvaluated.because}`
      : both(boundInUnits(boundAllModes.value, unit, limitValue));
  return {
    block: 'table',
    title: `${criterion}: ${statement}`,
    columns: [{ title: 'Question' }, { title: 'Answer' }],
    rows: [
      ...steps.map(({ question, answer }) => [question, answer]),
      ...(boundAllModes ? [['The bound with every mode counted as a failure', allModes]] : []),
    ],
    empty: 'no step was needed',
  };
}
