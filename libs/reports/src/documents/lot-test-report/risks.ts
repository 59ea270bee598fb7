import { capital, chanceInWords, percent, planRiskSentence } from '@breakbook/acceptance';
import { chanceCurves } from '@breakbook/figures';
import { type CriterionRisk, isNotEvaluated, type LineRisk } from '@breakbook/lab';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Block, Section } from '../../parts/blocks.js';
import { type Printing, printingOf } from '../../words/printing.js';
import { criterionRiskInWords } from '../../words/risk-words.js';

/** So many curves are told apart in one picture. */
const MOST_CURVES = 4;

/** What the plan risked, as it could be told before the first run; reports of before it was weighed have no such section. */
export function risksSection(content: LotReportContent): Section[] {
  const { risks } = content;
  if (!risks) return [];
  const printing = printingOf(content);
  const { say, language } = printing;
  return [
    {
      heading: say('What did the plan risk?'),
      blocks: [
        { block: 'paragraph', text: language === 'en' ? risks.sentence : planRiskSentence(risks.lines, language) },
        ...risks.lines.flatMap((line) => lineBlocks(line, content, printing)),
      ],
    },
  ];
}

function lineBlocks(
  { line, title, criteria, together }: LineRisk,
  content: LotReportContent,
  printing: Printing,
): Block[] {
  const { say, told, language } = printing;
  const sentenceOf = (one: CriterionRisk) => criterionRiskInWords(one, line, content, printing);
  const drawn = criteria.filter((one): one is CriterionRisk => !isNotEvaluated(one) && one.curve.length > 0);
  const edge = drawn.find(({ atLimit }) => atLimit)?.atLimit;
  return [
    {
      block: 'table',
      title: say('Line {line}: {title}', { line, title }),
      columns: [
        { title: say('Criterion') },
        { title: say('At the edge of the claim passes'), align: 'number' },
        { title: say('Keeps'), align: 'number' },
        { title: say('In words') },
      ],
      rows: criteria.map((one) => {
        const name = { text: one.criterion, under: told(one.kind) };
        if (isNotEvaluated(one))
          return [
            name,
            '',
            say('not evaluated'),
            say('{because}. It becomes possible if {what}.', {
              because: capital(told(one.notEvaluated.because)),
              what: told(one.notEvaluated.possibleIf),
            }),
          ];
        return [
          name,
          one.atLimit ? chanceInWords(one.atLimit.chance, language) : '',
          one.keeps === undefined ? say('claims none') : percent(Number(one.keeps.toFixed(3)), language),
          { text: sentenceOf(one), under: say('Assumed: {what}.', { what: told(one.assumes) }) },
        ];
      }),
      empty: say('The plan states no criterion.'),
    },
    ...(drawn.length === 0
      ? []
      : [
          {
            block: 'figure',
            scene: chanceCurves({
              title: say('Line {line}: chance to pass', { line }),
              alt: drawn.map((one) => `${one.criterion}: ${sentenceOf(one)}`).join(' '),
              caption: say(
                'Line {line}: how often a lot passes each criterion, by the share of it that lies below its limit.',
                { line },
              ),
              language: printing.figures,
              curves: drawn
                .slice(0, MOST_CURVES)
                .map(({ criterion, kind, curve }) => ({ label: `${criterion}, ${told(kind)}`, points: curve })),
              ...(edge
                ? {
                    edge: {
                      label: say('the claim denies {share}', { share: percent(edge.share, language) }),
                      share: edge.share,
                    },
                  }
                : {}),
            }),
          } as const,
        ]),
    {
      block: 'paragraph',
      text: isNotEvaluated(together)
        ? say('All criteria together: not evaluated, because {because}.', {
            because: told(together.notEvaluated.because),
          })
        : told(together.sentence),
    },
  ];
}
