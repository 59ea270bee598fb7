import { type OpinionShown } from '@breakbook/lab';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Box, type Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';

/**
 * Opinions and interpretations, each in a box of its own with its author and what it rests on (ISO/IEC 17025:2017,
 * 7.8.7.2: "clearly identified as such", from memory). There is no section where there is none: what is not included
 * says so.
 */
export function opinionsSections({ affairs, bundle }: LotReportContent): Section[] {
  const opinions = affairs?.opinions ?? [];
  if (opinions.length === 0) return [];
  return [
    {
      heading: 'Opinions and interpretations',
      blocks: [
        { block: 'paragraph', text: 'What stands in a box is an opinion of whom it names. It is no result of a test.' },
        ...opinions.map((one) => boxOf(one, bundle.lab.zone)),
      ],
    },
  ];
}

function boxOf(
  { number, version, lot, run, evaluation, text, basis, spoken, name, role, at }: OpinionShown,
  zone: string,
): Box {
  const rests = evaluation === undefined ? '' : `, on the results of evaluation ${evaluation}`;
  return {
    block: 'box',
    title: `Opinion ${number}${version > 1 ? `, version ${version}` : ''}, on ${run === undefined ? `lot ${lot}` : `run ${run}`}`,
    paragraphs: [
      text,
      `Basis: ${basis}`,
      ...(spoken ? [`Told by word of mouth to ${spoken.to} on ${spoken.on}.`] : []),
      `Given by ${name}, ${role}, ${timeOf(at, zone)} (${zone})${rests}.`,
    ],
  };
}
