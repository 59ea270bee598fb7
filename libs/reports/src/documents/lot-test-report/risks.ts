import { capital } from '@breakbook/acceptance';
import { chanceCurves } from '@breakbook/figures';
import { type CriterionRisk, isNotEvaluated, type LineRisk } from '@breakbook/lab';
import { printChance, printPercent } from '@breakbook/units';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Block, type Section } from '../../parts/blocks.js';

/** So many curves are told apart in one picture. */
const MOST_CURVES = 4;

/** What the plan risked, as it could be told before the first run; reports of before it was weighed have no such section. */
export function risksSection({ risks }: LotReportContent): Section[] {
  if (!risks) return [];
  return [
    {
      heading: 'What did the plan risk?',
      blocks: [{ block: 'paragraph', text: risks.sentence }, ...risks.lines.flatMap((line) => lineBlocks(line))],
    },
  ];
}

function lineBlocks({ line, title, criteria, together }: LineRisk): Block[] {
  const drawn = criteria.filter((one): one is CriterionRisk => !isNotEvaluated(one) && one.curve.length > 0);
  const edge = drawn.find(({ atLimit }) => atLimit)?.atLimit;
  return [
    {
      block: 'table',
      title: `Line ${line}: ${title}`,
      columns: [
        { title: 'Criterion' },
        { title: 'At the edge of the claim passes', align: 'number' },
        { title: 'Keeps', align: 'number' },
        { title: 'In words' },
      ],
      rows: criteria.map((one) => {
        const name = { text: one.criterion, under: one.kind };
        if (isNotEvaluated(one))
          return [
            name,
            '',
            'not evaluated',
            `${capital(one.notEvaluated.because)}. It becomes possible if ${one.notEvaluated.possibleIf}.`,
          ];
        return [
          name,
          one.atLimit ? printChance(one.atLimit.chance) : '',
          one.keeps === undefined ? 'claims none' : printPercent(Number(one.keeps.toFixed(3))),
          { text: one.sentence, under: `Assumed: ${one.assumes}.` },
        ];
      }),
      empty: 'The plan states no criterion.',
    },
    ...(drawn.length === 0
      ? []
      : [
          {
            block: 'figure',
            scene: chanceCurves({
              title: `Line ${line}: chance to pass`,
              alt: drawn.map(({ criterion, sentence }) => `${criterion}: ${sentence}`).join(' '),
              caption: `Line ${line}: how often a lot passes each criterion, by the share of it that lies below its limit.`,
              curves: drawn
                .slice(0, MOST_CURVES)
                .map(({ criterion, kind, curve }) => ({ label: `${criterion}, ${kind}`, points: curve })),
              ...(edge ? { edge: { label: `the claim denies ${printPercent(edge.share)}`, share: edge.share } } : {}),
            }),
          } as const,
        ]),
    {
      block: 'paragraph',
      text: isNotEvaluated(together)
        ? `All criteria together: not evaluated, because ${together.notEvaluated.because}.`
        : together.sentence,
    },
  ];
}
