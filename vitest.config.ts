import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

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

export default defineConfig({
  // Aliases, because resolve.conditions does not reach the global set-up.
  resolve: {
    alias: [
      { find: '@breakbook/service', replacement: `${root}apps/service/src/index.ts` },
      { find: /^@breakbook\/([a-z-]+)$/, replacement: `${root}libs/$1/src/index.ts` },
    ],
  },
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
      ...(report ? [['json', { outputFile: report }] as const] : []),
    ],
    globalSetup: ['tests/global-setup.ts'],
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
  },
});
