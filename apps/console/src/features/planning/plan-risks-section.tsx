import { type CriterionRisk, isNotEvaluated, type LineRisk, type Plan, type PlanRisks } from '@breakbook/lab';
import { printChance, printPercent } from '@breakbook/units';
import { useQuery } from '@tanstack/react-query';
import { send } from '../../client/send.js';
import { ChanceCurves } from '../../parts/figures/lab-figures.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Table } from '../../parts/table.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { usePrint } from '../../parts/units/reader.js';

/** What a plan risks, beside the plan itself: by criterion, schedule and line. */
export function PlanRisksSection({ plan }: { plan: Plan }) {
  const risks = useQuery({
    queryKey: ['planning', 'risks', plan],
    queryFn: () => send('POST /api/planning/risks', { body: { plan } }),
    staleTime: Number.POSITIVE_INFINITY,
  });
  if (risks.error) return <Trouble error={risks.error} onAgain={() => void risks.refetch()} />;
  if (!risks.data) return <Reading what="what the plan risks" />;
  return <Risks of={risks.data} />;
}

function Risks({ of: { lines, sentence } }: { of: PlanRisks }) {
  return (
    <Section question="What does the plan risk?" word="Risks" aside={sentence}>
      {lines.map((line) => (
        <LineRisks key={line.line} line={line} />
      ))}
    </Section>
  );
}

/** So many curves are told apart in one picture. */
const MOST_CURVES = 4;

function LineRisks({ line: { line, title, criteria, together } }: { line: LineRisk }) {
  const { tell } = usePrint();
  const drawn = criteria.filter((one): one is CriterionRisk => !isNotEvaluated(one) && one.curve.length > 0);
  const edge = drawn.find(({ atLimit }) => atLimit)?.atLimit;
  return (
    <>
      <h3>
        Line {line}: {title}
      </h3>
      <Table<LineRisk['criteria'][number]>
        caption={`What line ${line} risks, criterion by criterion`}
        columns={[
          { head: 'Criterion', cell: ({ criterion, kind }) => `${criterion}, ${kind}` },
          {
            head: 'A lot at the edge passes',
            number: true,
            cell: (one) => (isNotEvaluated(one) || !one.atLimit ? '' : printChance(one.atLimit.chance)),
          },
          {
            head: 'Keeps',
            number: true,
            cell: (one) =>
              isNotEvaluated(one)
                ? 'not evaluated'
                : one.keeps === undefined
                  ? 'claims none'
                  : printPercent(Number(one.keeps.toFixed(3))),
          },
          {
            head: 'In words',
            wide: true,
            cell: (one) =>
              isNotEvaluated(one)
                ? tell(`${one.notEvaluated.because}. It becomes possible if ${one.notEvaluated.possibleIf}.`)
                : tell(`${one.sentence} Assumed: ${one.assumes}.`),
          },
        ]}
        rows={criteria}
        rowKey={({ criterion }) => criterion}
        empty="No criterion."
      />
      {drawn.length > 0 && (
        <ChanceCurves
          of={{
            title: `Line ${line}: chance to pass`,
            alt: drawn.map(({ criterion, sentence }) => `${criterion}: ${sentence}`).join(' '),
            caption: `Line ${line}: how often a lot passes each criterion, by the share of it that lies below its limit.`,
            curves: drawn
              .slice(0, MOST_CURVES)
              .map(({ criterion, kind, curve }) => ({ label: `${criterion}, ${kind}`, points: curve })),
            ...(edge ? { edge: { label: `the claim denies ${printPercent(edge.share)}`, share: edge.share } } : {}),
          }}
        />
      )}
      <p>
        {tell(
          isNotEvaluated(together)
            ? `All criteria together: not evaluated, because ${together.notEvaluated.because}.`
            : together.sentence,
        )}
      </p>
    </>
  );
}
