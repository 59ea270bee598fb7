import { defineConfig } from 'vitest/config';

/** A run of its own in which one file computes for ever and another ends. */
export default defineConfig({
  test: {
    include: ['tests/stuck/*.fixture.ts'],
    maxWorkers: 1,
    reporters: ['default', ['./tests/stuck/stuck-reporter.ts', { minutes: 0.05 }]],
  },
});
