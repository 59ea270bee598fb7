import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PROBLEM_CODES } from '@breakbook/lab';
import { UNREAD_QUOTA } from '@breakbook/records';
import { describe, expect, it } from 'vitest';
import { USUAL_QUOTAS } from '../apps/service/src/quotas/quotas.ts';
import { UPLOAD_BOUNDS } from '../apps/service/src/uploads/bounds.ts';

const root = fileURLToPath(new URL('..', import.meta.url));

/** What only lists codes raises none. */
const LISTS = ['libs/lab/src/problems.ts', 'apps/service/src/http/problem-statuses.ts'];

function files(folder: string, wanted: RegExp): { name: string; text: string }[] {
  return fs
    .readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => wanted.test(file) && !/(^|\/)(dist|node_modules)\//.test(file))
    .map((file) => ({ name: `${folder}/${file}`, text: fs.readFileSync(path.join(root, folder, file), 'utf8') }));
}

const all = ['apps', 'libs', 'tests'].flatMap((folder) => files(folder, /\.(ts|tsx|mjs)$/));
const isTest = (name: string) => /\.test\.tsx?$|\.fixture\.ts$/.test(name);
const sources = all.filter(
  ({ name }) => !isTest(name) && !name.startsWith('tests/') && !name.endsWith('/generated.ts') && !LISTS.includes(name),
);
const tests = all.filter(({ name }) => isTest(name) && name !== 'tests/problem-codes.test.ts');
const names = (text: string, code: string) => text.includes(`'${code}'`);

describe('the closed list of codes', () => {
  it('names each once', () => {
    expect(new Set(PROBLEM_CODES).size).toBe(PROBLEM_CODES.length);
  });

  it('holds every code that a refusal or a flag is given anywhere', () => {
    const group = new Set(PROBLEM_CODES.map((code) => code.split('.')[0]));
    const given = sources.flatMap(({ name, text }) =>
      [...text.matchAll(/\bcode: '([a-z]+(?:\.[a-z-]+)?)'/g)].map(([, code = '']) => ({ name, code })),
    );
    expect(given.length).toBeGreaterThan(100);
    const unknown = given.filter(
      ({ code }) => group.has(code.split('.')[0] ?? '') && !PROBLEM_CODES.some((one) => one === code),
    );
    expect(unknown).toEqual([]);
  });

  it('holds none that nothing raises', () => {
    expect(PROBLEM_CODES.filter((code) => !sources.some(({ text }) => names(text, code)))).toEqual([]);
  });

  it.each(PROBLEM_CODES)('%s is met by a test', (code) => {
    expect(tests.some(({ text }) => names(text, code))).toBe(true);
  });

  it('stands in docs/formats.md, each with what it means', () => {
    const text = fs.readFileSync(path.join(root, 'docs/formats.md'), 'utf8');
    const missing = PROBLEM_CODES.filter((code) => !text.includes(`\`${code}\``));
    expect(missing).toEqual([]);
  });
});

it('the bounds of an upload stand in docs/formats.md as they are', () => {
  const text = fs.readFileSync(path.join(root, 'docs/formats.md'), 'utf8');
  const row = (what: string) => text.match(new RegExp(`^\\| ${what} +\\| ([^|]+?) +\\|$`, 'm'))?.[1];
  expect(row('description of the run \\(JSON\\)')).toBe(`${UPLOAD_BOUNDS.descriptionBytes / 1024} KiB`);
  expect(row('files of one run')).toBe(`${UPLOAD_BOUNDS.files}`);
  expect(row('one file')).toBe(`${UPLOAD_BOUNDS.fileBytes / 1024 ** 2} MiB`);
  expect(row('all files of one run together')).toBe(`${UPLOAD_BOUNDS.bytes / 1024 ** 2} MiB`);
  expect(row('name of a file')).toBe(`${UPLOAD_BOUNDS.nameBytes} bytes of UTF-8`);
  expect(row('unread files of one caller waiting, and their bytes')).toBe(
    `${UNREAD_QUOTA.files} files, ${UNREAD_QUOTA.bytes / 1024 ** 3} GiB`,
  );
});

it('what one caller may use stands in docs/formats.md and DEVELOPERS.md as it is', () => {
  const read = (file: string) => fs.readFileSync(path.join(root, file), 'utf8');
  const { bytes, runs, exports } = USUAL_QUOTAS;
  const formats = read('docs/formats.md');
  for (const [what, figure] of [
    ['BYTES', `${bytes / 1024 ** 3} GiB`],
    ['RUNS', `${runs}`],
    ['EXPORTS', `${exports}`],
  ])
    expect(formats).toMatch(new RegExp(`\\| ${figure} +\\| \`BREAKBOOK_${what}_AN_HOUR\` +\\|`));
  expect(read('DEVELOPERS.md')).toContain(`defaults ${bytes}, ${runs} and ${exports};`);
});
