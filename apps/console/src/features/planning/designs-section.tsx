import type { ChanceCurvesInput } from '@breakbook/figures';
import { type Design, type DesignFound, type Designs, isNotEvaluated } from '@breakbook/lab';
import { printChance, printDeclared, printPercent, printSignificant } from '@breakbook/units';
import { Link } from 'react-router';
import { writePlanAddress } from '../../parts/addresses.js';
import { capital } from '../../parts/capital.js';
import { ChanceCurves } from '../../parts/figures/lab-figures.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { usePrint } from '../../parts/units/reader.js';
import { designText } from './writing/chosen-design.js';

/** Counts and bounds stand in pictures of their own: no picture tells more than four curves apart. */
const PICTURES = [
  { of: 'Tests by counts', designs: ['zero failures', 'failures at most', 'zero failures, raised load'] },
  { of: 'Tests by bounds', designs: ['normal bound', 'lognormal bound', 'Weibull bound', 'staged bound'] },
  { of: 'The staircase, which is about the median', designs: ['staircase'], edge: 0.5 },
] as const;

/** Designs side by side: a table, their curves, a sentence each. */
export function DesignsSection({ of, waiting }: { of: Designs; waiting: boolean }) {
  const { tell } = usePrint();
  const { designs, asked, notes } = of;
  const found = designs.filter((one): one is DesignFound => !isNotEvaluated(one));
  const shown = (pick: (cost: NonNullable<DesignFound['cost']>) => number | undefined) =>
    found.some(({ cost }) => cost && pick(cost) !== undefined);
  return (
    <Section
      question="Which tests could show it, and what would each risk?"
      word="Designs"
      aside={
        <p role="status">
          {waiting
            ? 'Being worked out again …'
            : 'Worked out for what is set above. A design opens the plan that declares it, to be filled in.'}
        </p>
      }
    >
      <Table<Design>
        caption="Designs side by side"
        columns={[
          {
            head: 'Design',
            cell: (one) =>
              isNotEvaluated(one) ? (
                capital(one.design)
              ) : (
                <Link to={writePlanAddress({ design: designText(one, asked) })}>{capital(one.design)}</Link>
              ),
          },
          {
            head: 'Specimens',
            number: true,
            cell: (one) => (isNotEvaluated(one) ? 'not evaluated' : printDeclared(one.n)),
          },
          {
            head: 'On average',
            number: true,
            cell: (one) =>
              isNotEvaluated(one) ? '' : one.expected ? printSignificant(one.expected.good, 2) : printDeclared(one.n),
          },
          ...(shown(({ specimens }) => specimens)
            ? [{ head: 'Cost', number: true, cell: (one: Design) => costSaid(one, ({ specimens }) => specimens) }]
            : []),
          ...(shown(({ rigHours }) => rigHours)
            ? [{ head: 'Rig hours', number: true, cell: (one: Design) => costSaid(one, ({ rigHours }) => rigHours) }]
            : []),
          {
            head: 'A good lot passes',
            number: true,
            cell: (one) => (isNotEvaluated(one) ? '' : printChance(one.good.chance)),
          },
          {
            head: 'A bad lot passes',
            number: true,
            cell: (one) => (isNotEvaluated(one) ? '' : printChance(one.bad.chance)),
          },
          {
            head: 'Keeps',
            number: true,
            cell: (one) => (isNotEvaluated(one) ? '' : printPercent(Number(one.keeps.toFixed(3)))),
          },
        ]}
        rows={designs}
        rowKey={({ design }) => design}
        empty="No design."
      />
      {PICTURES.map(({ of: title, designs: names, ...own }) => {
        const curves = found
          .filter(({ design }) => names.some((name) => name === design))
          .map(({ design, n, curve }) => ({ label: `${design} (${n})`, points: curve }));
        return curves.length === 0 ? null : (
          <ChanceCurves key={title} of={picture(title, curves, 'edge' in own ? own.edge : 1 - asked.coverage)} />
        );
      })}
      <dl className="designs-said">
        {designs.map((one) => (
          <div key={one.design}>
            <dt>{capital(one.design)}</dt>
            <dd>
              {isNotEvaluated(one)
                ? tell(
                    `Not evaluated: ${one.notEvaluated.because}. It becomes possible if ${one.notEvaluated.possibleIf}.`,
                  )
                : tell([one.sentence, `Assumed: ${one.assumes}.`, ...one.notes].join(' '))}
            </dd>
          </div>
        ))}
      </dl>
      <ul>
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </Section>
  );
}

function costSaid(one: Design, pick: (cost: NonNullable<DesignFound['cost']>) => number | undefined): string {
  const value = isNotEvaluated(one) || !one.cost ? undefined : pick(one.cost);
  return value === undefined ? '' : printSignificant(value, 4);
}

function picture(title: string, curves: ChanceCurvesInput['curves'], denied: number): ChanceCurvesInput {
  const share = Number(denied.toPrecision(12));
  return {
    title: `${title}: chance to pass`,
    alt: `${title}. The more of a lot lies below the limit, the less often it passes: ${curves.map(({ label, points }) => `${label} at ${printPercent(share)} below the limit ${printChance(chanceAt(points, share))}`).join('; ')}.`,
    caption: `${title}: how often a lot passes, by the share of it that lies below the limit; in brackets the specimens.`,
    curves,
    edge: { label: `the claim denies ${printPercent(share)}`, share },
  };
}

function chanceAt(points: ChanceCurvesInput['curves'][number]['points'], share: number): number {
  return points.find((one) => one.share >= share - 1e-9)?.chance ?? 0;
}
