import type { Reading } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { flagNearDuplicates } from './near-duplicates.js';

const read = (run: string, files: { name: string; numbers?: string }[]): { reading: Reading } => ({
  reading: {
    run,
    method: { method: 'BURST', revision: 1 },
    software: 'breakbook',
    files: files.map((file) => ({ ...file, sha256: `${run} ${file.name}`, bytes: 1, rows: 1 })),
    calibrations: [],
    flags: [],
    checks: [],
    characteristics: [],
    events: [],
    proposedValidity: 'valid',
  },
});

describe('flagNearDuplicates', () => {
  it('tells each of two runs of the other, and leaves the others alone', () => {
    const runs = [
      read('1', [{ name: 'a.csv', numbers: 'same' }]),
      read('2', [{ name: 'b.csv', numbers: 'other' }]),
      read('3', [{ name: 'c.csv', numbers: 'same' }]),
    ];
    const [first, second, third] = flagNearDuplicates(runs).map(({ reading }) => reading);
    expect(first).toMatchObject({
      proposedValidity: 'needs a look',
      flags: [{ code: 'run.near-duplicate', file: 'a.csv', detail: expect.stringContaining('c.csv of run 3') }],
    });
    expect(third?.flags).toMatchObject([{ file: 'c.csv', detail: expect.stringContaining('a.csv of run 1') }]);
    expect(second).toEqual(runs[1]?.reading);
  });

  it('takes two files of one run, and files without numbers, for no duplicates', () => {
    const runs = [
      read('1', [
        { name: 'a.csv', numbers: 'same' },
        { name: 'b.csv', numbers: 'same' },
      ]),
      read('2', [{ name: 'sheet.pdf' }]),
      read('3', [{ name: 'sheet.pdf' }]),
    ];
    expect(flagNearDuplicates(runs)).toEqual(runs);
  });
});
