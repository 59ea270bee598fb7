import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vitest/config';
import { LongestFirst } from './tests/longest-first.ts';

const root = fileURLToPath(new URL('.', import.meta.url));
const report = process.env.BREAKBOOK_TEST_REPORT;

/** Rooms of pure functions: their test files may share one process, which loads the room once for all of them. */
const PURE = [
  'libs/{units,lab,statistics,signals,figures,acceptance,evidence,reports}/src/**/*.test.ts',
  'tests/reference/*.test.ts',
  'apps/console/src/**/*.test.ts',
];

/** Tests of the service, each with a database and a service of its own: what they share is the program, loaded once. */
const SERVICE = [
  'apps/{service,cli}/src/**/*.test.ts',
  'libs/records/src/{change,ledger,raw,verify}/*.test.ts',
  'tests/{journeys,browser}/*.test.ts',
  'tests/faults/{appends,dispositions}.test.ts',
];

// What is loaded below must be what the sources say, also where vitest was called by itself.
execFileSync(process.execPath, [`${root}node_modules/typescript/bin/tsc`, '-b', root], { stdio: 'inherit' });

/**
 * Rooms are loaded as they are compiled, by Node itself: that is what ships, and each process of the tests would
 * otherwise have every source compiled for it once more. The tests themselves and the console are read from source.
 */
const COMPILED: Plugin = {
  name: 'compiled-rooms',
  enforce: 'pre',
  async resolveId(id, importer, options) {
    const found = await this.resolve(id, importer, { ...options, skipSelf: true });
    const compiled = found?.id.replace(/^(.*\/(?:apps|libs)\/[a-z-]+)\/src\/(.*)\.ts$/, '$1/dist/$2.js');
    return found && compiled !== found.id && fs.existsSync(compiled ?? '') ? { ...found, id: compiled ?? '' } : found;
  },
};

export default defineConfig({
  plugins: [COMPILED],
  test: {
    projects: [
      { extends: true, test: { name: 'pure', include: PURE, isolate: false } },
      { extends: true, test: { name: 'service', include: SERVICE, isolate: false } },
      {
        extends: true,
        test: {
          name: 'whole',
          include: ['tests/**/*.test.ts', 'libs/*/src/**/*.test.ts', 'apps/*/src/**/*.test.{ts,tsx}'],
          exclude: ['**/node_modules/**', ...PURE, ...SERVICE],
        },
      },
    ],
    reporters: [
      'default',
      './tests/not-run-reporter.ts',
      './tests/stuck/stuck-reporter.ts',
      ...(report ? [['json', { outputFile: report }] as const] : []),
    ],
    server: { deps: { external: [/\/(apps|libs)\/[a-z-]+\/dist\//] } },
    sequence: { sequencer: LongestFirst },
    globalSetup: ['tests/global-setup.ts'],
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
  },
});
