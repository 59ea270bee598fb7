import fs from 'node:fs';
import path from 'node:path';
import { EXIT, OLD_RESULT_MARK, OLD_RESULTS_COUNT_NOWHERE, oldValueInWords } from '@breakbook/lab';
import { type OldResultsTable, readOldResults, refuseFutureDays } from '@breakbook/signals';
import { printProblem, unreadable } from '../refusals.js';
import { sendToService } from '../service.js';
import { printable, table, wrapped } from '../terminal.js';

export interface OldResultsOptions {
  dryRun?: boolean;
  service: string;
  person?: string;
  lab?: string;
  code?: string;
  note?: string;
}

/**
 * Reads a table of results of earlier days and shows what would be stored. Without --dry-run it is then sent to the
 * service, which holds products and lots against its own and takes it over whole or not at all.
 */
export async function oldResultsCommand(file: string, options: OldResultsOptions): Promise<number> {
  const name = path.basename(file);
  const bytes = bytesOf(file);
  const read = readOldResults(name, bytes);
  refuseFutureDays(name, read.results, new Date().toISOString().slice(0, 10));
  console.log(described(read));
  if (options.dryRun) {
    console.log('\nNothing was stored. Whether the lab knows these products and lots, the service says.');
    return EXIT.done;
  }
  const query = new URLSearchParams({ name, note: options.note ?? '' });
  const sent = await sendToService(options, {
    path: `/api/old-results?${query}`,
    mediaType: 'text/csv',
    body: bytes,
  });
  if (typeof sent === 'number') return sent;
  const { number, rows, sha256 } = sent as { number: number; rows: number; sha256: string };
  console.log(`\nTaken over as table ${number}: ${rows} results, SHA-256 ${sha256}.`);
  return EXIT.done;
}

function bytesOf(file: string): Buffer {
  try {
    return fs.readFileSync(file);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    throw unreadable(file);
  }
}

function described({ results, flags }: OldResultsTable): string {
  return [
    table(
      [
        { head: 'line', side: 'right' },
        { head: 'product' },
        { head: 'lot' },
        { head: 'specimen' },
        { head: 'test' },
        { head: 'characteristic' },
        { head: 'value' },
        { head: 'date' },
        { head: 'rig' },
        { head: 'validity' },
        { head: 'source' },
      ],
      results.map((one) => [
        String(one.line),
        one.product,
        one.lot,
        one.specimen,
        one.test,
        one.characteristic,
        oldValueInWords(one),
        one.date ?? 'unknown',
        one.rig ?? 'unknown',
        one.validity,
        one.source,
      ]),
    ),
    ...(flags.length === 0 ? [] : ['', 'Taken with a flag:', ...flags.map(printProblem)]),
    '',
    wrapped(printable(`${results.length} results, each ${OLD_RESULT_MARK}. ${OLD_RESULTS_COUNT_NOWHERE}`)),
  ].join('\n');
}
