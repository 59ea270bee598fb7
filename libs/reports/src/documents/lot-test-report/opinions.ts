import type { OpinionShown } from '@breakbook/lab';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Box, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import { printingOf, type ReportSay } from '../../words/printing.js';

/**
 * Opinions and interpretations, each in a box of its own with its author and what it rests on (ISO/IEC 17025:2017,
 * 7.8.7.2: "clearly identified as such", from memory). There is no section where there is none: what is not included
 * says so.
 */
export function opinionsSections(content: LotReportContent): Section[] {
  const { affairs, bundle } = content;
  const { say } = printingOf(content);
  const opinions = affairs?.opinions ?? [];
  if (opinions.length === 0) return [];
  return [
    {
      heading: say('Opinions and interpretations'),
      blocks: [
        {
          block: 'paragraph',
          text: say('What stands in a box is an opinion of whom it names. It is no result of a test.'),
        },
        ...opinions.map((one) => boxOf(one, bundle.lab.zone, say)),
      ],
    },
  ];
}

function boxOf(
  { number, version, lot, run, evaluation, text, basis, spoken, name, role, at }: OpinionShown,
  zone: string,
  say: ReportSay,
): Box {
  const rests = evaluation === undefined ? '' : say(', on the results of evaluation {evaluation}', { evaluation });
  return {
    block: 'box',
    title: say('Opinion {number}{version}, on {subject}', {
      number,
      version: version > 1 ? say(', version {version}', { version }) : '',
      subject: run === undefined ? say('lot {lot}', { lot }) : say('run {run}', { run }),
    }),
    paragraphs: [
      text,
      say('Basis: {basis}', { basis }),
      ...(spoken ? [say('Told by word of mouth to {person} on {day}.', { person: spoken.to, day: spoken.on })] : []),
      say('Given by {name}, {role}, {time} ({zone}){rests}.', { name, role, time: timeOf(at, zone), zone, rests }),
    ],
  };
}
