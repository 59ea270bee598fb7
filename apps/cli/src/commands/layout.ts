import fs from 'node:fs';
import path from 'node:path';
import { EXIT, Refusal } from '@breakbook/lab';
import { type LayoutProposal, proposeLayout } from '@breakbook/signals';
import { printable, table, wrapped } from '../terminal.js';

/**
 * What a file says of how it is written, for a person to read, and a layout with what it does not say left empty. The
 * status is 0 where the file can be read in one way only, and 3 where a person has to decide something of it.
 */
export function layoutCommand(file: string, options: { json?: boolean }): number {
  const proposal = proposeLayout(path.basename(file), bytesOf(file));
  // Line by line, so that what must not reach a terminal is escaped, and the text stays JSON.
  const json = JSON.stringify(proposal.layout, null, 2).split('\n').map(printable).join('\n');
  console.log(options.json ? json : `${described(proposal)}\n\n${json}`);
  return proposal.doubts.length === 0 ? EXIT.done : EXIT.undecided;
}

function bytesOf(file: string): Uint8Array {
  try {
    return fs.readFileSync(file);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    throw new Refusal({
      code: 'file.missing',
      file: printable(file),
      detail: `${printable(file)}: this file cannot be read.`,
      expected: 'a file that can be read',
      action: 'Check the name of the file and whether you may read it.',
    });
  }
}

function described({ understood, columns, doubts, toFill }: LayoutProposal): string {
  const list = (head: string, items: readonly string[]) =>
    items.length === 0 ? [] : ['', head, ...items.map((item) => wrapped(`- ${printable(item)}`, 96, '  '))];
  return [
    table(
      [{ head: 'what' }, { head: 'found' }],
      understood.map(({ what, found }) => [what, found]),
    ),
    '',
    table(
      [{ head: 'column', side: 'right' }, { head: 'name' }, { head: 'unit as written' }, { head: 'first values' }],
      columns.map(({ column, name, unit, first }) => [String(column), name, unit ?? '(none)', first.join(' | ')]),
    ),
    ...list('For a person to decide:', doubts),
    ...list('To fill in, since no file says it:', toFill),
  ].join('\n');
}
