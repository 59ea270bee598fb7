import { openDataSource, Records } from '@breakbook/records';
import { type FirstPassphrase, giveFirstPassphrases } from '@breakbook/service';
import type pg from 'pg';

/** What the first start prints once; nothing at later starts. */
export async function firstPassphrases(database: pg.ClientConfig): Promise<string | undefined> {
  const dataSource = await openDataSource(database);
  try {
    const given = await giveFirstPassphrases(new Records(dataSource));
    return given.length === 0 ? undefined : passphraseTable(given);
  } finally {
    await dataSource.destroy();
  }
}

/** A column each, the long names last: where the terminal is narrow they wrap, and no passphrase does. */
export function passphraseTable(given: FirstPassphrase[]): string {
  const rows = [
    ['person', 'passphrase', 'duties', 'name'],
    ...given.map(({ person, passphrase, duties, name }) => [person, passphrase, duties.join(', '), name]),
  ];
  const widths = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const lines = rows.map((row) =>
    `  ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd(),
  );
  return `
Sign in with one of these. They are shown this once and kept nowhere; write down those you need.
Whoever reviews, decides, issues or administers adds a second factor on their own page (/me) before the first signature.
${lines.join('\n')}`;
}
