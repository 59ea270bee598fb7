import { PackagePath } from '@breakbook/evidence';
import type { Run } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { fileNames } from './package-names.js';

const names = (...files: string[]) =>
  fileNames({ runs: [{ run: '1', files: files.map((name) => ({ name })) } as unknown as Run] }).get('1') ?? [];

describe('a run file in a package', () => {
  it('keeps its name where that can be a path anywhere', () => {
    expect(names('log.csv', 'runs/run-0401 a.csv')).toEqual(['log.csv', 'runs/run-0401 a.csv']);
  });

  it.each([
    '../outside.csv',
    '/etc/passwd',
    'C:\\log.csv',
    'a/../b.csv',
    '.hidden',
    'a//b',
    'con.csv',
    'lpt1',
    'log.csv.',
    'log\u202e.csv',
    'a\u0000b',
    '<script>.csv',
    `${'x'.repeat(400)}.csv`,
    'runs.json',
    'RUNS.JSON',
    'renamed/1-1.dat',
  ])('gets another name than %j', (name) => {
    const [given = ''] = names(name);
    expect(given).toBe('renamed/1-1.dat');
    expect(PackagePath.safeParse(`lot/${given}`).success).toBe(true);
  });

  it('never shares a name with another, nor is a file where another needs a folder', () => {
    expect(names('log.csv', 'LOG.csv')).toEqual(['renamed/1-1.dat', 'renamed/1-2.dat']);
    expect(names('log', 'log/a.csv')).toEqual(['renamed/1-1.dat', 'log/a.csv']);
  });
});
