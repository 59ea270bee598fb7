import { isNotEvaluated, type LineResult, type NotEvaluated } from '@breakbook/lab';
import { printDeclared } from '@breakbook/units';
import type { LotAnswer } from '../../client/answers.js';
import { ProbabilityPlot, Staircase } from '../../parts/figures/lab-figures.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';

/** How are the strengths of the claim spread? The probability plot, or the strikes one after the other, and the numbers that describe it; they decide nothing. */
export function DistributionSection({ answer, line }: { answer: LotAnswer; line: LineResult }) {
  const figures = answer.figures.find((one) => one.line === line.line);
  const rows = useStatistics(line);
  return (
    <Section
      question={`${line.line}. How are the strengths spread?`}
      word={`${line.line}. Spread`}
      aside="These numbers describe the specimens of the claim. They stand beside the criteria and decide nothing."
    >
      {figures?.probabilityPlot && <ProbabilityPlot of={figures.probabilityPlot} />}
      {figures?.strikes && <Staircase of={figures.strikes} />}
      <Table
        caption={`Statistics of the ${line.counts.inClaim} specimens in the claim of plan line ${line.line}`}
        columns={[
          { head: 'Quantity', cell: ({ name }) => name },
          { head: 'Value', wide: true, cell: ({ value }) => value },
        ]}
        rows={rows}
        rowKey={({ name }) => name}
        empty="No specimen makes the claim yet, so there is nothing to describe."
      />
    </Section>
  );
}

interface Statistic {
  name: string;
  value: React.ReactNode;
}

function useStatistics({ weibull, summary, unit }: LineResult): Statistic[] {
  const { quantity, pure } = usePrint();
  const fitted: Statistic[] = isNotEvaluated(weibull)
    ? [{ name: 'Weibull fit', value: <NotSaid {...weibull.notEvaluated} /> }]
    : [
        { name: 'Specimens, and how many broke', value: `${weibull.n}, of which ${weibull.failures} broke` },
        { name: 'Weibull shape β', value: pure(weibull.shape) },
        {
          name: `Limits of β, two-sided, ${percent(weibull.confidence)} confidence`,
          value: isNotEvaluated(weibull.shapeLimits) ? (
            <NotSaid {...weibull.shapeLimits.notEvaluated} />
          ) : (
            weibull.shapeLimits.map((limit) => pure(limit)).join(' to ')
          ),
        },
        { name: 'Weibull scale η (63.2 % break below it)', value: quantity(weibull.scale, unit) },
      ];
  const described: Statistic[] = isNotEvaluated(summary)
    ? [{ name: 'Mean and standard deviation', value: <NotSaid {...summary.notEvaluated} /> }]
    : [
        { name: 'Mean', value: quantity(summary.mean, unit) },
        { name: 'Standard deviation', value: quantity(summary.sd, unit, { signed: false }) },
        { name: 'Lowest and highest', value: `${quantity(summary.min, unit)} to ${quantity(summary.max, unit)}` },
      ];
  return [...fitted, ...described];
}

/** A declared fraction, written without the noise of its binary form. */
function percent(fraction: number): string {
  return `${printDeclared(Number((fraction * 100).toPrecision(12)))}\u00a0%`;
}

function NotSaid({ because, possibleIf }: NotEvaluated['notEvaluated']) {
  const { tell } = usePrint();
  return (
    <>
      <Outcome word="not evaluated" />: {tell(because)}. Possible if {tell(possibleIf)}.
    </>
  );
}
