import { printFixed } from '@breakbook/units';
import { type LotReportContent } from '../../content/lot-report-content.js';
import { type Section } from '../../parts/blocks.js';

/** The raw files by their digests, so that anyone who holds one can tell whether it is the one. */
export function digestsSection({ bundle, readings, lot }: LotReportContent): Section {
  const read = readings.flatMap(({ run, files }) =>
    files.map(({ name, bytes, sha256 }) => [run, name, printFixed(bytes, 0), sha256]),
  );
  const readRuns = new Set(readings.map(({ run }) => run));
  const others = bundle.runs
    .filter(({ run }) => !readRuns.has(run))
    .flatMap(({ run, files }) => files.map(({ name, sha256 }) => [run, name, '', sha256 ?? 'not stated']));
  return {
    heading: 'Which raw files does this rest on?',
    blocks: [
      {
        block: 'table',
        columns: [
          { title: 'Run' },
          { title: 'File' },
          { title: 'Bytes', align: 'number' },
          { title: 'SHA-256 of its bytes' },
        ],
        rows: [...read, ...others],
        empty: 'none: values were keyed from a results table',
      },
      {
        block: 'paragraph',
        tone: 'note',
        text: `Read and judged with ${lot.software}. The content of this report is attached to it as canonical JSON (RFC 8785), so that its numbers can be computed again from this file.`,
      },
    ],
  };
}
