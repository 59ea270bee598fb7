import { readdirSync, readFileSync } from 'node:fs';
import { listMethods } from '@breakbook/statistics';
import { describe, expect, it } from 'vitest';

const guide = readFileSync(new URL('../../docs/methods.md', import.meta.url), 'utf8');
const sections = new Map(
  guide
    .split(/^## /m)
    .slice(1)
    .flatMap((section) => {
      const [heading = ''] = section.split('\n', 1);
      return heading.split(', ').map((name) => [name, section] as const);
    }),
);
const here = new URL('.', import.meta.url);
const references = readdirSync(here)
  .filter((name) => name.endsWith('.json'))
  .map((name) => readFileSync(new URL(name, here), 'utf8'))
  .join();

/** No published numbers are known for these; simulation is their only judge, in these tests. */
const SIMULATED: Record<string, string> = {
  'basis-value': 'libs/statistics/src/bounds/basis',
  'stage-confidence': 'libs/statistics/src/sizing/stages',
  'competing-modes': 'libs/statistics/src/bounds',
};

describe('every method of the calculator', () => {
  it.each(listMethods().map(({ method }) => method))('%s has its section, with all that it must say', (method) => {
    const section = sections.get(method) ?? '';
    for (const part of ['Question', 'Formula', 'Assumes', 'Smallest n', 'Source', 'Checked', 'Not for'])
      expect(section, `docs/methods.md, ${method}`).toContain(`- **${part}.** `);
  });

  it.each(listMethods().map(({ method }) => method))(
    '%s is checked against something outside this project',
    (method) => {
      const simulated = SIMULATED[method];
      if (simulated === undefined) expect(references).toContain(`"method": "${method}"`);
      else
        expect(readdirSync(new URL(`../../${simulated}`, here)).some((name) => name.endsWith('.test.ts'))).toBe(true);
    },
  );

  it('is all that the guide speaks of', () => {
    expect([...sections.keys()].sort()).toEqual(
      listMethods()
        .map(({ method }) => method)
        .sort(),
    );
  });
});
