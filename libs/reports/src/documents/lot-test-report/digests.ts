import { printFixed } from '@breakbook/units';
import type { LotReportContent } from '../../content/lot-report-content.js';
import type { Section } from '../../parts/blocks.js';
import { printingOf } from '../../words/printing.js';

/** The raw files by their digests, so that anyone who holds one can tell whether it is the one. */
export function digestsSection(content: LotReportContent): Section {
  const { bundle, readings, lot } = content;
  const { say } = printingOf(content);
  const read = readings.flatMap(({ run, files }) =>
    files.map(({ name, bytes, sha256 }) => [run, name, printFixed(bytes, 0), sha256]),
  );
  const readRuns = new Set(readings.map(({ run }) => run));
  const others = bundle.runs
    .filter(({ run }) => !readRuns.has(run))
    .flatMap(({ run, files }) => files.map(({ name, sha256 }) => [run, name, '', sha256 ?? say('not stated')]));
  return {
    heading: say('Which raw files does this rest on?'),
    blocks: [
      {
        block: 'table',
        columns: [
          { title: say('Run') },
          { title: say('File') },
          { title: say('Bytes'), align: 'number' },
          { title: say('SHA-256 of its bytes') },
        ],
        rows: [...read, ...others],
        empty: say('none: values were keyed from a results table'),
      },
      {
        block: 'paragraph',
        tone: 'note',
        text: say(
          'Read and judged with {software}. The content of this report is attached to it as canonical JSON (RFC 8785), so that its numbers can be computed again from this file.',
          { software: lot.software },
        ),
      },
    ],
  };
}
