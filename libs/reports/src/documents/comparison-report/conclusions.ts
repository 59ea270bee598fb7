import type { Section } from '../../parts/blocks.js';
import type { Printing } from '../../words/printing.js';
import type { ComparisonReportContent } from './content.js';
import { MESSAGES } from './messages/index.js';
import { levelCell, specimenNamed, toldIn } from './words.js';

/** What was concluded, of each item and overall; what it does not show; and all that was not examined. */
export function conclusionsSection(content: ComparisonReportContent, printing: Printing): Section {
  const { conclusions } = MESSAGES[printing.language];
  const { result } = content;
  return {
    heading: conclusions.heading,
    blocks: [
      // The first stands at the head.
      ...result.sentences
        .slice(1)
        .map((sentence) => ({ block: 'paragraph', tone: 'claim', text: toldIn(content, printing, sentence) }) as const),
      { block: 'paragraph', tone: 'plain', text: conclusions.limits },
      {
        block: 'table',
        columns: [{ title: conclusions.item }, { title: conclusions.level }, { title: conclusions.sentence }],
        rows: result.items.map(({ specimen, level, sentence }) => [
          { text: specimenNamed(content, specimen), strong: true },
          levelCell(level, printing),
          toldIn(content, printing, sentence),
        ]),
        empty: conclusions.noItems,
      },
      { block: 'paragraph', tone: 'note', text: conclusions.scale },
      { block: 'subheading', text: conclusions.notExamined },
      { block: 'list', items: result.notExamined },
      ...(result.notes.length === 0
        ? []
        : [
            { block: 'subheading', text: conclusions.notes } as const,
            { block: 'list', items: result.notes.map((note) => toldIn(content, printing, note)) } as const,
          ]),
    ],
  };
}
